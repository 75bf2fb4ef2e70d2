// SPDX-License-Identifier: BSL-1.0
#pragma once

// The cutting problem with parts of sticks allowed, solved by making columns as they are needed (Gilmore and Gomory
// 1961): its prices give the bound, its sticks the first guess of a plan.

#include <eavewright/order/cut_model.hpp>
#include <eavewright/order/fill_stick.hpp>

#include <cstddef>
#include <cstdint>
#include <utility>
#include <vector>

namespace eavewright::detail {

/// What is still to be cut, and what is still on hand.
struct CutDemand {
    std::vector<std::int64_t> left;   ///< of each kind
    std::vector<std::int64_t> there;  ///< of each source, `endless` for what is bought
};

/// A column that is part of the answer.
struct UsedColumn {
    std::size_t column;
    double times;
};

/// Above so many lengths the program is not set up; the bound is then a plain one, the sticks those of the fillings.
inline constexpr std::size_t most_program_kinds = 1'500;

/// Least count of sticks or cost with parts of sticks allowed. Every kind that is left is a row, and every source that
/// has an end; the inverse of the basis is kept whole, column by column.
class CutProgram {
public:
    /// `columns` is added to. Those that hold more of a kind than is left are passed over.
    CutProgram(const CutModel& model, const CutDemand& demand, std::vector<CutColumn>& columns, StickFiller& filler)
        : model_{model}, demand_{demand}, columns_{columns}, filler_{filler} {
        row_of_kind_.assign(model.kinds.size(), -1);
        row_of_source_.assign(model.sources.size(), -1);
        for (std::size_t k = 0; k < model.kinds.size(); ++k) {
            if (demand.left[k] > 0) {
                row_of_kind_[k] = add_row(static_cast<double>(demand.left[k]));
            }
        }
        for (std::size_t s = 0; s < model.sources.size(); ++s) {
            if (demand.there[s] != endless) {
                row_of_source_[s] = add_row(-static_cast<double>(demand.there[s]));
            }
        }
        start();
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            if (is_within(columns_[c])) {
                usable_.push_back(c);
            }
        }
    }

    /// Solves it, or stops where `may_go_on`, asked at every step, says no. True where solved.
    template <class MayGoOn>
    bool solve(MayGoOn&& may_go_on) {
        const std::size_t most = 1000 + rows() * 60;
        for (std::size_t step = 0; step < most; ++step) {
            if (step % 40 == 0) {
                price_rows();
            }
            if (!may_go_on()) {
                return false;
            }
            std::int64_t entering = cheapest_entry();
            if (entering == none && !make_columns(entering)) {
                price_rows();
                if (!make_columns(entering)) {
                    return true;
                }
            }
            pivot(entering);
        }
        return false;
    }

    /// Sum of the prices of all that is left: the bound, once solved.
    [[nodiscard]] double value() const {
        double all = 0.0;
        for (std::size_t k = 0; k < model_.kinds.size(); ++k) {
            all += price_of(k) * static_cast<double>(demand_.left[k]);
        }
        for (std::size_t s = 0; s < model_.sources.size(); ++s) {
            if (row_of_source_[s] >= 0) {
                all -= price_[static_cast<std::size_t>(row_of_source_[s])] * static_cast<double>(demand_.there[s]);
            }
        }
        return all;
    }
    /// Price of one of a kind, in sticks or hundredths.
    [[nodiscard]] double price_of(std::size_t kind) const {
        const std::int32_t row = row_of_kind_[kind];
        return row < 0 || price_[static_cast<std::size_t>(row)] < 0.0 ? 0.0 : price_[static_cast<std::size_t>(row)];
    }
    /// Steps that one step counts as: it goes through the whole inverse.
    [[nodiscard]] std::int64_t work() const { return static_cast<std::int64_t>(1 + rows() * rows() / 40'000); }
    /// What a source asks for a stick: its count, and the price of one on hand.
    [[nodiscard]] double asked_by(std::size_t source) const {
        const std::int32_t row = row_of_source_[source];
        return static_cast<double>(model_.sources[source].count) +
               (row >= 0 ? price_[static_cast<std::size_t>(row)] : 0.0);
    }
    [[nodiscard]] std::vector<UsedColumn> used() const {
        std::vector<UsedColumn> used;
        for (std::size_t i = 0; i < rows(); ++i) {
            if (basis_[i] >= 0 && level_[i] > 1e-4) {
                used.push_back({static_cast<std::size_t>(basis_[i]), level_[i]});
            }
        }
        return used;
    }

private:
    static constexpr std::int64_t none = INT64_MIN;
    static constexpr double tiny = 1e-9;

    [[nodiscard]] std::size_t rows() const { return need_.size(); }
    std::int32_t add_row(double need) {
        // Needs that differ a little keep the steps from going in circles.
        const auto row = static_cast<std::int32_t>(need_.size());
        need_.push_back(need + 1e-7 * static_cast<double>(1 + (row * 37) % 101));
        return row;
    }
    [[nodiscard]] bool is_within(const CutColumn& column) const {
        for (const KindCount& part : column.parts) {
            if (part.count > demand_.left[static_cast<std::size_t>(part.kind)]) {
                return false;
            }
        }
        return demand_.there[static_cast<std::size_t>(column.source)] != 0;
    }
    /// One kind of piece to a stick, from the endless source that this counts least with.
    [[nodiscard]] CutColumn plain_column(std::size_t kind) const {
        CutColumn best{0, {}};
        double least = 0.0;
        for (std::size_t s = 0; s < model_.sources.size(); ++s) {
            const CutSource& source = model_.sources[s];
            const std::int64_t count = lesser(source.room / model_.kinds[kind].size, demand_.left[kind]);
            const double each = count > 0 ? static_cast<double>(source.count) / static_cast<double>(count) : 0.0;
            if (source.there == endless && count > 0 && (best.parts.empty() || each < least)) {
                least = each;
                best = {static_cast<std::int32_t>(s),
                        {{static_cast<std::int32_t>(kind), static_cast<std::int32_t>(count)}}};
            }
        }
        return best;
    }
    std::size_t keep_column(const CutColumn& column) {
        for (std::size_t c = 0; c < columns_.size(); ++c) {
            if (columns_[c].source == column.source && columns_[c].parts == column.parts) {
                return c;
            }
        }
        columns_.push_back(column);
        return columns_.size() - 1;
    }
    void start() {
        basis_.assign(rows(), 0);
        level_.assign(rows(), 0.0);
        price_.assign(rows(), 0.0);
        step_.assign(rows(), 0.0);
        inverse_.assign(rows() * rows(), 0.0);
        for (std::size_t k = 0; k < model_.kinds.size(); ++k) {
            if (row_of_kind_[k] >= 0) {
                const auto row = static_cast<std::size_t>(row_of_kind_[k]);
                const std::size_t column = keep_column(plain_column(k));
                basis_[row] = static_cast<std::int64_t>(column);
                inverse_[row * rows() + row] = 1.0 / static_cast<double>(columns_[column].parts.front().count);
                level_[row] = need_[row] * inverse_[row * rows() + row];
            }
        }
        for (const std::int32_t source : row_of_source_) {
            if (source >= 0) {
                const auto row = static_cast<std::size_t>(source);
                basis_[row] = -1 - static_cast<std::int64_t>(row);
                inverse_[row * rows() + row] = -1.0;
                level_[row] = -need_[row];
            }
        }
    }
    [[nodiscard]] double count_of(std::int64_t basic) const {
        return basic < 0
                   ? 0.0
                   : static_cast<double>(
                         model_.sources[static_cast<std::size_t>(columns_[static_cast<std::size_t>(basic)].source)]
                             .count);
    }
    void price_rows() {
        for (std::size_t column = 0; column < rows(); ++column) {
            double price = 0.0;
            for (std::size_t row = 0; row < rows(); ++row) {
                price += count_of(basis_[row]) * inverse_[column * rows() + row];
            }
            price_[column] = price;
        }
    }
    [[nodiscard]] double saving_of(const CutColumn& column) const {
        double saving = -asked_by(static_cast<std::size_t>(column.source));
        for (const KindCount& part : column.parts) {
            const std::int32_t row = row_of_kind_[static_cast<std::size_t>(part.kind)];
            saving += price_[static_cast<std::size_t>(row)] * static_cast<double>(part.count);
        }
        return saving;
    }
    [[nodiscard]] std::int64_t cheapest_entry() const {
        std::int64_t best = none;
        double most = 1e-7;
        for (std::size_t row = 0; row < rows(); ++row) {
            if (-price_[row] > most) {
                most = -price_[row];
                best = -1 - static_cast<std::int64_t>(row);
            }
        }
        for (const std::size_t column : usable_) {
            const double saving = saving_of(columns_[column]);
            if (saving > most) {
                most = saving;
                best = static_cast<std::int64_t>(column);
            }
        }
        return best;
    }
    /// Makes the column that saves most from each source; false where none saves anything.
    bool make_columns(std::int64_t& entering) {
        std::vector<std::int64_t> values(model_.kinds.size());
        const double scale = 1'099'511'627'776.0 / (1.0 + asked_most());
        for (std::size_t k = 0; k < values.size(); ++k) {
            values[k] = static_cast<std::int64_t>(price_of(k) * scale);
        }
        filler_.prepare(values, demand_.left);
        entering = none;
        double most = 0.0;
        for (std::size_t s = 0; s < model_.sources.size(); ++s) {
            if (demand_.there[s] == 0) {
                continue;
            }
            const auto floor = static_cast<std::int64_t>((asked_by(s) + 1e-7) * scale);
            const std::int64_t room = model_.sources[s].room;
            std::int64_t value = filler_.fill(room, floor, 4'000);
            if (value <= floor && !filler_.is_best()) {
                value = filler_.list_work(room) < 5e7 ? filler_.fill_by_list(room, floor)
                                                      : filler_.fill(room, floor, 2'000'000);
            }
            if (value > floor) {
                usable_.push_back(columns_.size());
                columns_.push_back({static_cast<std::int32_t>(s), filler_.parts()});
                const double saving = static_cast<double>(value - floor);
                if (saving > most) {
                    most = saving;
                    entering = static_cast<std::int64_t>(columns_.size()) - 1;
                }
            }
        }
        return entering != none;
    }
    [[nodiscard]] double asked_most() const {
        double most = 0.0;
        for (std::size_t s = 0; s < model_.sources.size(); ++s) {
            most = asked_by(s) > most ? asked_by(s) : most;
        }
        return most;
    }
    void add_inverse_column(std::size_t row, double times) {
        const double* column = &inverse_[row * rows()];
        for (std::size_t i = 0; i < rows(); ++i) {
            step_[i] += times * column[i];
        }
    }
    void pivot(std::int64_t entering) {
        step_.assign(rows(), 0.0);
        double saving = 0.0;
        if (entering < 0) {
            add_inverse_column(static_cast<std::size_t>(-1 - entering), -1.0);
            saving = -price_[static_cast<std::size_t>(-1 - entering)];
        } else {
            const CutColumn& column = columns_[static_cast<std::size_t>(entering)];
            saving = saving_of(column);
            for (const KindCount& part : column.parts) {
                add_inverse_column(static_cast<std::size_t>(row_of_kind_[static_cast<std::size_t>(part.kind)]),
                                   static_cast<double>(part.count));
            }
            const std::int32_t row = row_of_source_[static_cast<std::size_t>(column.source)];
            if (row >= 0) {
                add_inverse_column(static_cast<std::size_t>(row), -1.0);
            }
        }
        std::size_t leaving = rows();
        double least = 0.0;
        for (std::size_t i = 0; i < rows(); ++i) {
            if (step_[i] > tiny) {
                const double ratio = (level_[i] > 0.0 ? level_[i] : 0.0) / step_[i];
                if (leaving == rows() || ratio < least || (ratio == least && step_[i] > step_[leaving])) {
                    leaving = i;
                    least = ratio;
                }
            }
        }
        if (leaving < rows()) {
            replace(leaving, entering, least, saving);
        }
    }
    void replace(std::size_t leaving, std::int64_t entering, double times, double saving) {
        const double by = step_[leaving];
        for (std::size_t i = 0; i < rows(); ++i) {
            level_[i] -= times * step_[i];
        }
        level_[leaving] = times;
        basis_[leaving] = entering;
        for (std::size_t column = 0; column < rows(); ++column) {
            double* inverse = &inverse_[column * rows()];
            const double share = inverse[leaving] / by;
            if (share != 0.0) {
                for (std::size_t i = 0; i < rows(); ++i) {
                    inverse[i] -= share * step_[i];
                }
                inverse[leaving] = share;
                price_[column] -= saving * share;
            }
        }
    }

    const CutModel& model_;
    const CutDemand& demand_;
    std::vector<CutColumn>& columns_;
    StickFiller& filler_;
    std::vector<std::int32_t> row_of_kind_;
    std::vector<std::int32_t> row_of_source_;
    std::vector<std::size_t> usable_;
    std::vector<double> need_;
    std::vector<std::int64_t> basis_;  ///< a column, or -1 less a row that has more than it needs
    std::vector<double> level_;
    std::vector<double> price_;
    std::vector<double> step_;
    std::vector<double> inverse_;
};

}  // namespace eavewright::detail
