// SPDX-License-Identifier: BSL-1.0
#pragma once

// Every way of cutting that could still be better, tried in turn: with the prices of the program, what a stick is
// filled below its count is lost, and all losses together may not exceed what the bound leaves to win.

#include <eavewright/order/cut_dive.hpp>
#include <eavewright/order/cut_model.hpp>
#include <eavewright/order/cut_program.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// A column and what it loses: the count of its source less the prices of its pieces.
struct LossyColumn {
    CutColumn column;
    double loss;
};

class CutTree {
public:
    /// `program` is solved and holds the whole demand.
    CutTree(CutSearch& search, const CutProgram& program) : search_{search}, least_{program.value()} {
        for (std::size_t k = 0; k < search.model.kinds.size(); ++k) {
            price_.push_back(program.price_of(k));
        }
        for (std::size_t s = 0; s < search.model.sources.size(); ++s) {
            asked_.push_back(program.asked_by(s));
        }
        rate_.assign(price_.size() + 1, 0.0);
        for (std::size_t k = price_.size(); k-- > 0;) {
            const double rate = price_[k] / static_cast<double>(search.model.kinds[k].size);
            rate_[k] = rate > rate_[k + 1] ? rate : rate_[k + 1];
        }
    }

    /// Tries every way that counts less than the best, first those that lose least. True where all were tried, so that
    /// the best known is the best there is; false where there are too many or `most_nodes` are reached.
    bool try_all(std::int64_t most_nodes) {
        std::size_t pieces = 0;
        for (const CutKind& kind : search_.model.kinds) {
            pieces += kind.pieces.size();
        }
        if (pieces > most_pieces) {
            return false;
        }
        most_nodes_ = most_nodes;
        for (auto step = static_cast<double>(search_.common); !search_.is_done(); step *= 2.0) {
            const double all = to_win();
            allowed_ = step < all ? step : all;
            if (all < 0.0) {
                return true;
            }
            if (!list_columns()) {
                return false;
            }
            demand_ = whole_demand(search_.model);
            draft_ = {};
            stopped_ = false;
            cut_short_ = false;
            go_on(0, allowed_);
            if (stopped_) {
                return false;
            }
            if (cut_short_) {  // a better way was found: what it leaves to win is tried from the start
                step /= 2.0;
                continue;
            }
            if (allowed_ >= to_win()) {
                return true;
            }
        }
        return search_.best <= search_.bound;
    }

private:
    static constexpr std::size_t most_columns = 100'000;
    static constexpr std::size_t most_pieces = 2'000;  ///< sticks are tried one within the other
    static constexpr std::size_t most_known = 500'000;

    [[nodiscard]] double to_win() const { return static_cast<double>(search_.best - search_.common) - least_ + 1e-6; }
    [[nodiscard]] bool list_columns() {
        const std::size_t kinds = price_.size();
        groups_.assign(kinds, {});
        const CutDemand all = whole_demand(search_.model);
        tries_ = 20 * static_cast<std::int64_t>(most_columns);
        for (std::size_t s = 0; s < asked_.size(); ++s) {
            column_ = {static_cast<std::int32_t>(s), {}};
            for (std::size_t k = 0; s != search_.model.made_up && k < kinds; ++k) {
                list_from(all, k, search_.model.sources[s].room, asked_[s]);
            }
        }
        for (std::vector<LossyColumn>& group : groups_) {
            std::stable_sort(group.begin(), group.end(),
                             [](const LossyColumn& a, const LossyColumn& b) { return a.loss < b.loss; });
        }
        return tries_ > 0;
    }
    /// Adds this kind, then any of the later ones, while the rest of the room can still make up for the loss.
    void list_from(const CutDemand& all, std::size_t kind, std::int64_t room, double loss) {
        const std::int64_t size = search_.model.kinds[kind].size;
        const std::int64_t most = lesser(all.left[kind], room / size);
        for (std::int64_t count = 1; count <= most && tries_ > 0; ++count) {
            --tries_;
            const std::int64_t rest = room - count * size;
            const double now = loss - price_[kind] * static_cast<double>(count);
            column_.parts.push_back({static_cast<std::int32_t>(kind), static_cast<std::int32_t>(count)});
            if (now <= allowed_) {
                const auto group = static_cast<std::size_t>(column_.parts.front().kind);
                groups_[group].push_back({column_, now > 0.0 ? now : 0.0});
            }
            for (std::size_t next = kind + 1;
                 next < price_.size() && now - rate_[next] * static_cast<double>(rest) <= allowed_; ++next) {
                list_from(all, next, rest, now);
            }
            column_.parts.pop_back();
        }
    }

    /// What is left from a kind on, and what is still on hand, as a key.
    [[nodiscard]] std::string left_from(std::size_t kind) const {
        std::string key;
        for (std::size_t k = kind; k < price_.size(); ++k) {
            for (std::int64_t left = demand_.left[k], digit = 0; digit < 3; ++digit, left /= 128) {
                key += static_cast<char>(left % 128);
            }
        }
        for (const std::int64_t there : demand_.there) {
            key += there == endless ? std::string{} : std::to_string(there) + ",";
        }
        return key;
    }
    /// All of one kind is cut: the rest is tried unless it was, with as much to lose, and found wanting.
    void go_on(std::size_t kind, double allowed) {
        while (kind < price_.size() && demand_.left[kind] == 0) {
            ++kind;
        }
        if (kind == price_.size()) {
            search_.keep(draft_);
            return;
        }
        const std::string key = left_from(kind);
        const auto known = tried_.find(key);
        if (known != tried_.end() && known->second >= allowed) {
            return;
        }
        descend(kind, 0, allowed);
        if (!stopped_ && !cut_short_ && allowed_ <= to_win() && tried_.size() < most_known) {
            tried_[key] = allowed;
        }
    }
    /// The longest piece left is cut from some stick: each in turn. Sticks that begin with one kind are taken in the
    /// order of their group, so that no set of sticks comes twice.
    void descend(std::size_t kind, std::size_t from, double allowed) {
        const std::vector<LossyColumn>& group = groups_[kind];
        for (std::size_t i = from; i < group.size() && group[i].loss <= allowed; ++i) {
            const CutColumn& column = group[i].column;
            if (times_within(demand_, column) <= 0) {
                continue;
            }
            if (++tried_sticks_ % 8 == 0 && (!search_.step(1) || search_.nodes >= most_nodes_)) {
                stopped_ = true;
                return;
            }
            take_sticks(search_, demand_, draft_, column, 1);
            if (demand_.left[kind] == 0) {
                go_on(kind + 1, allowed - group[i].loss);
            } else {
                descend(kind, i, allowed - group[i].loss);
            }
            give_back(column);
            cut_short_ = cut_short_ || allowed_ > to_win();
            if (stopped_ || cut_short_) {
                return;
            }
        }
    }
    void give_back(const CutColumn& column) {
        for (const KindCount& part : column.parts) {
            demand_.left[static_cast<std::size_t>(part.kind)] += part.count;
        }
        std::int64_t& there = demand_.there[static_cast<std::size_t>(column.source)];
        there = there == endless ? endless : there + 1;
        draft_.count -= search_.model.sources[static_cast<std::size_t>(column.source)].count;
        draft_.sticks.pop_back();
    }

    CutSearch& search_;
    double least_;
    double allowed_ = 0.0;
    std::vector<double> price_;
    std::vector<double> asked_;
    std::vector<double> rate_;                      ///< most price for its size of this and all later kinds
    std::vector<std::vector<LossyColumn>> groups_;  ///< columns by their longest kind, least loss first
    CutColumn column_{0, {}};
    CutDemand demand_;
    CutDraft draft_;
    std::unordered_map<std::string, double> tried_;  ///< what was left and could not be cut with so much to lose
    std::int64_t tries_ = 0;
    std::int64_t tried_sticks_ = 0;
    std::int64_t most_nodes_ = 0;
    bool stopped_ = false;
    bool cut_short_ = false;  ///< left because a better way was found
};

}  // namespace eavewright::detail
