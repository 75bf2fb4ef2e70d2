// SPDX-License-Identifier: BSL-1.0
#pragma once

// Some figures known, the others wanted: sums and slope triangles worked through until nothing more follows.
//
// Every figure remembers which inputs it came from, so that a contradiction can name them.

#include <eavewright/fault.hpp>
#include <eavewright/units/decimal.hpp>
#include <eavewright/units/length.hpp>
#include <eavewright/units/pitch.hpp>

#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace eavewright::detail {

/// What a figure is, for ranges and for words.
enum class FigureKind { height, distance, pitch };

/// Figures in inches, pitches as rise over run, and the rules between them.
class KnownFigures {
public:
    /// A figure that may be an input; its index.
    std::size_t add(std::string_view name, FigureKind kind, std::optional<double> value) {
        figures_.push_back({name, kind, value, value ? bit(figures_.size()) : 0U});
        return figures_.size() - 1;
    }
    std::size_t add(std::string_view name, FigureKind kind, std::optional<Length> value) {
        return add(name, kind, value ? std::optional<double>{inches(*value)} : std::nullopt);
    }
    std::size_t add(std::string_view name, std::optional<Pitch> value) {
        return add(name, FigureKind::pitch, value ? std::optional<double>{value->rise_per_run()} : std::nullopt);
    }
    /// A figure that follows from others alone.
    std::size_t add_between(FigureKind kind) { return add({}, kind, std::optional<double>{}); }

    /// part + other = whole.
    void add_sum(std::size_t part, std::size_t other, std::size_t whole) { sums_.push_back({part, other, whole}); }
    /// rise = pitch x run, slope x slope = run x run + rise x rise. Earlier ones are asked first: put the longest
    /// first.
    void add_triangle(std::size_t run, std::size_t rise, std::size_t slope, std::size_t pitch) {
        triangles_.push_back({run, rise, slope, pitch});
    }

    /// Works out all that follows; then refuses what contradicts by more than `within`, and what is missing.
    void solve(Length within, const Path& path) {
        within_ = inches(within);
        while (step(path)) {
        }
        require_agreement(path);
        require_complete(path);
    }
    [[nodiscard]] double value(std::size_t figure) const { return *figures_[figure].value; }
    [[nodiscard]] Length length(std::size_t figure) const { return one_inch * value(figure); }

private:
    struct Figure {
        std::string_view name;
        FigureKind kind;
        std::optional<double> value;
        std::uint32_t from;  ///< the inputs it came from, one bit each
    };
    using Sum = std::array<std::size_t, 3>;
    using Triangle = std::array<std::size_t, 4>;

    [[nodiscard]] static std::uint32_t bit(std::size_t figure) { return std::uint32_t{1} << figure; }
    [[nodiscard]] bool known(std::size_t figure) const { return figures_[figure].value.has_value(); }

    void set(std::size_t figure, double value, std::uint32_t from, const Path& path) {
        Figure& to = figures_[figure];
        // A hair below zero is rounding of the tape.
        const double kept = to.kind != FigureKind::height && value < 0.0 && value >= -within_ ? 0.0 : value;
        if (to.kind != FigureKind::height && !(kept >= 0.0)) {
            refuse(from, describe_part(to) + " would be below 0", path);
        }
        to.value = kept;
        to.from = from;
    }

    /// Sets one more figure; false when nothing more follows.
    bool step(const Path& path) {
        for (const Sum& sum : sums_) {
            if (step_sum(sum, path)) {
                return true;
            }
        }
        for (const Triangle& triangle : triangles_) {
            if (step_triangle(triangle, path)) {
                return true;
            }
        }
        return false;
    }
    bool step_sum(const Sum& sum, const Path& path) {
        const auto [part, other, whole] = sum;
        if (known(part) && known(other) && !known(whole)) {
            set(whole, value(part) + value(other), figures_[part].from | figures_[other].from, path);
            return true;
        }
        if (known(whole) && known(part) != known(other)) {
            const std::size_t given = known(part) ? part : other;
            set(known(part) ? other : part, value(whole) - value(given), figures_[whole].from | figures_[given].from,
                path);
            return true;
        }
        return false;
    }
    bool step_triangle(const Triangle& triangle, const Path& path) {
        const auto [run, rise, slope, pitch] = triangle;
        const auto from = [this](std::size_t a, std::size_t b) { return figures_[a].from | figures_[b].from; };
        if (known(run) && known(rise)) {
            if (!known(slope)) {
                set(slope, std::sqrt(value(run) * value(run) + value(rise) * value(rise)), from(run, rise), path);
                return true;
            }
            if (!known(pitch) && value(run) > inches(shortest_run)) {
                set(pitch, value(rise) / value(run), from(run, rise), path);
                return true;
            }
            return false;
        }
        if (known(pitch)) {
            const double factor = std::sqrt(1.0 + value(pitch) * value(pitch));
            if (known(run)) {
                set(rise, value(run) * value(pitch), from(run, pitch), path);
                return true;
            }
            if (known(slope)) {
                set(run, value(slope) / factor, from(slope, pitch), path);
                return true;
            }
            if (known(rise) && value(pitch) > 0.0) {
                set(run, value(rise) / value(pitch), from(rise, pitch), path);
                return true;
            }
        }
        if (known(slope) && known(run) != known(rise)) {
            const std::size_t leg = known(run) ? run : rise;
            set(known(run) ? rise : run, other_leg(slope, leg), from(slope, leg), path);
            return true;
        }
        return false;
    }
    /// 0 where the slope is shorter than the leg: whether by too much is told where figures must agree.
    [[nodiscard]] double other_leg(std::size_t slope, std::size_t leg) const {
        const double over = value(slope) - value(leg);
        return over <= 0.0 ? 0.0 : std::sqrt(over * (value(slope) + value(leg)));
    }

    void require_agreement(const Path& path) const {
        const auto require = [&](double off, std::uint32_t from) {
            if (!(std::fabs(off) <= within_)) {
                refuse(from, "they are apart by " + describe_inches(std::fabs(off)), path);
            }
        };
        for (const auto& [part, other, whole] : sums_) {
            if (known(part) && known(other) && known(whole)) {
                require(value(part) + value(other) - value(whole),
                        figures_[part].from | figures_[other].from | figures_[whole].from);
            }
        }
        for (const auto& [run, rise, slope, pitch] : triangles_) {
            if (!(known(run) && known(rise))) {
                continue;
            }
            const std::uint32_t legs = figures_[run].from | figures_[rise].from;
            if (known(pitch)) {
                require(value(run) * value(pitch) - value(rise), legs | figures_[pitch].from);
            }
            if (known(slope)) {
                require(std::sqrt(value(run) * value(run) + value(rise) * value(rise)) - value(slope),
                        legs | figures_[slope].from);
            }
        }
    }

    /// Names the inputs that disagree: the one given last as the input at fault, the others as what it must agree with.
    [[noreturn]] void refuse(std::uint32_t from, const std::string& why, const Path& path) const {
        std::size_t last = 0;
        for (std::size_t i = 0; i < figures_.size(); ++i) {
            last = (from & bit(i)) != 0U ? i : last;
        }
        std::string others;
        for (std::size_t i = 0; i < last; ++i) {
            if ((from & bit(i)) != 0U) {
                others += (others.empty() ? "" : " and ") + describe_part(figures_[i]);
            }
        }
        throw FaultError{Fault{FaultCode::contradiction, Path{path, figures_[last].name}.text(),
                               describe_value(figures_[last]),
                               "agreement with " + others + " within " + describe_inches(within_) + ": " + why}};
    }

    void require_complete(const Path& path) const {
        std::vector<bool> held;
        for (std::size_t i = 0; i < figures_.size(); ++i) {
            held.push_back(known(i));
        }
        std::string one;
        std::string any;
        std::string_view first;
        bool complete = true;
        for (std::size_t i = 0; i < figures_.size(); ++i) {
            complete = complete && held[i];
            if (held[i] || figures_[i].name.empty()) {
                continue;
            }
            any += (any.empty() ? "" : ", ") + std::string{figures_[i].name};
            if (completes(held, i)) {
                first = first.empty() ? figures_[i].name : first;
                one += (one.empty() ? "" : ", ") + std::string{figures_[i].name};
            }
        }
        if (!complete) {
            throw FaultError{Fault{FaultCode::missing_field, Path{path, one.empty() ? any_first() : first}.text(), "",
                                   one.empty() ? "at least two more of " + any : "one more of " + one}};
        }
    }
    [[nodiscard]] std::string_view any_first() const {
        for (const Figure& figure : figures_) {
            if (!figure.value && !figure.name.empty()) {
                return figure.name;
            }
        }
        return {};
    }
    /// Whether every figure would follow, had `figure` been given as well.
    [[nodiscard]] bool completes(std::vector<bool> held, std::size_t figure) const {
        held[figure] = true;
        for (bool more = true; more;) {
            more = false;
            for (const auto& [part, other, whole] : sums_) {
                if (held[part] + held[other] + held[whole] == 2) {
                    held[part] = held[other] = held[whole] = true;
                    more = true;
                }
            }
            for (const auto& [run, rise, slope, pitch] : triangles_) {
                const int count = held[run] + held[rise] + held[slope] + held[pitch];
                if (count == 2 || count == 3) {
                    held[run] = held[rise] = held[slope] = held[pitch] = true;
                    more = true;
                }
            }
        }
        for (const bool each : held) {
            if (!each) {
                return false;
            }
        }
        return true;
    }

    [[nodiscard]] static std::string describe_inches(double inches) { return write_decimal(inches, 6) + " in"; }
    [[nodiscard]] static std::string describe_value(const Figure& figure) {
        return figure.kind == FigureKind::pitch ? write_decimal(*figure.value * 12.0, 6) + " in 12"
                                                : describe_inches(*figure.value);
    }
    [[nodiscard]] static std::string describe_part(const Figure& figure) {
        if (figure.name.empty()) {
            return "a distance between them";
        }
        return std::string{figure.name} + (figure.value ? " of " + describe_value(figure) : std::string{});
    }

    std::vector<Figure> figures_;
    std::vector<Sum> sums_;
    std::vector<Triangle> triangles_;
    double within_ = 0.0;
};

/// The pitch that came out: as it was given, or from rise over run within the range of a pitch.
[[nodiscard]] inline Pitch pitch_of(const std::optional<Pitch>& given, double rise_per_run, const Path& path,
                                    std::string_view name = "pitch") {
    if (given) {
        return *given;
    }
    if (!(rise_per_run >= 0.0 && rise_per_run <= steepest_rise_per_run)) {
        throw FaultError{Fault{FaultCode::out_of_range, Path{path, name}.text(),
                               write_decimal(rise_per_run * 12.0, 6) + " in 12",
                               "0 <= pitch < 90 deg, rising at most 1000 in 1"}};
    }
    return Pitch::in_12(rise_per_run * 12.0);
}

}  // namespace eavewright::detail
