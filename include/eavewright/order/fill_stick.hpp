// SPDX-License-Identifier: BSL-1.0
#pragma once

// The fullest or most valuable filling of one stick.

#include <eavewright/order/cut_model.hpp>

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace eavewright::detail {

[[nodiscard]] constexpr std::int64_t lesser(std::int64_t a, std::int64_t b) { return b < a ? b : a; }

/// Fills one stick for the most value out of what is left of each kind: by branch and bound, most value for its size
/// first.
class StickFiller {
public:
    explicit StickFiller(const CutModel& model) : model_{model} {}

    /// What each kind is worth and how many of it are left.
    void prepare(const std::vector<std::int64_t>& values, const std::vector<std::int64_t>& left) {
        offers_.clear();
        for (std::size_t k = 0; k < model_.kinds.size(); ++k) {
            if (values[k] > 0 && left[k] > 0) {
                const std::int64_t size = model_.kinds[k].size;
                const double rate = static_cast<double>(values[k]) / static_cast<double>(size);
                offers_.push_back({static_cast<std::int32_t>(k), size, values[k], left[k], rate, size});
            }
        }
        std::stable_sort(offers_.begin(), offers_.end(),
                         [](const Offer& a, const Offer& b) { return a.rate > b.rate; });
        for (std::size_t i = offers_.size(); i-- > 1;) {
            offers_[i - 1].least = lesser(offers_[i].least, offers_[i - 1].size);
        }
    }

    /// The most value in `room` if it is above `floor`, else `floor` and no parts. Tries `most_tries` choices, the best
    /// of them where these do not suffice (`is_best` tells).
    std::int64_t fill(std::int64_t room, std::int64_t floor, std::int64_t most_tries) {
        best_ = floor;
        tries_ = most_tries;
        parts_.clear();
        chosen_.clear();
        descend(0, room, 0);
        is_best_ = tries_ > 0;
        std::sort(parts_.begin(), parts_.end(), [](KindCount a, KindCount b) { return a.kind < b.kind; });
        return best_;
    }
    /// The same by listing what every room holds; time and memory go with the room and the pieces.
    std::int64_t fill_by_list(std::int64_t room, std::int64_t floor) {
        const auto rooms = static_cast<std::size_t>(room) + 1;
        most_.assign(rooms, 0);
        taken_.assign(rooms * offers_.size(), 0);
        for (std::size_t i = 0; i < offers_.size(); ++i) {
            list_offer(offers_[i], rooms, &taken_[i * rooms]);
        }
        is_best_ = true;
        parts_.clear();
        best_ = floor;
        if (most_[rooms - 1] <= floor) {
            return floor;
        }
        best_ = most_[rooms - 1];
        std::size_t at = rooms - 1;
        for (std::size_t i = offers_.size(); i-- > 0;) {
            const std::uint16_t count = taken_[i * rooms + at];
            if (count > 0) {
                parts_.push_back({offers_[i].kind, count});
                at -= static_cast<std::size_t>(offers_[i].size) * count;
            }
        }
        std::sort(parts_.begin(), parts_.end(), [](KindCount a, KindCount b) { return a.kind < b.kind; });
        return best_;
    }
    /// Steps of work that `fill_by_list` takes.
    [[nodiscard]] double list_work(std::int64_t room) const {
        double copies = 0.0;
        for (const Offer& offer : offers_) {
            copies += static_cast<double>(lesser(offer.left, room / offer.size));
        }
        return copies * static_cast<double>(room);
    }

    [[nodiscard]] const std::vector<KindCount>& parts() const { return parts_; }
    [[nodiscard]] bool is_best() const { return is_best_; }

private:
    struct Offer {
        std::int32_t kind;
        std::int64_t size;
        std::int64_t value;
        std::int64_t left;
        double rate;
        std::int64_t least;  ///< least size of this and all later ones
    };

    void descend(std::size_t i, std::int64_t room, std::int64_t value) {
        if (value > best_) {
            best_ = value;
            parts_ = chosen_;
        }
        for (; i < offers_.size() && room >= offers_[i].least; ++i) {
            const Offer& offer = offers_[i];
            if (offer.size > room) {
                continue;
            }
            if (tries_ <= 0 || static_cast<double>(value) + offer.rate * static_cast<double>(room) <
                                   static_cast<double>(best_) + 1.0) {
                return;
            }
            --tries_;
            for (std::int64_t count = lesser(offer.left, room / offer.size); count > 0; --count) {
                chosen_.push_back({offer.kind, static_cast<std::int32_t>(count)});
                descend(i + 1, room - count * offer.size, value + count * offer.value);
                chosen_.pop_back();
            }
        }
    }
    void list_offer(const Offer& offer, std::size_t rooms, std::uint16_t* taken) {
        const auto size = static_cast<std::size_t>(offer.size);
        for (std::size_t room = rooms; room-- > size;) {
            std::int64_t best = most_[room];
            const auto most = static_cast<std::size_t>(lesser(offer.left, 65'535));
            for (std::size_t count = 1; count <= most && count * size <= room; ++count) {
                const std::int64_t value = most_[room - count * size] + static_cast<std::int64_t>(count) * offer.value;
                if (value > best) {
                    best = value;
                    taken[room] = static_cast<std::uint16_t>(count);
                }
            }
            most_[room] = best;
        }
    }

    const CutModel& model_;
    std::vector<Offer> offers_;
    std::vector<KindCount> parts_;
    std::vector<KindCount> chosen_;
    std::vector<std::int64_t> most_;
    std::vector<std::uint16_t> taken_;
    std::int64_t best_ = 0;
    std::int64_t tries_ = 0;
    bool is_best_ = true;
};

}  // namespace eavewright::detail
