// SPDX-License-Identifier: BSL-1.0

// Certified regressions of the NIST Statistical Reference Datasets, and fits worked by hand.

#include <eavewright/squaring/network_linear_fit.hpp>

#include "../support/refusal.hpp"
#include "../support/table.hpp"

#include <doctest/doctest.h>
#include <boost/multiprecision/cpp_bin_float.hpp>

#include <cmath>
#include <cstddef>
#include <string>
#include <type_traits>
#include <vector>

using namespace eavewright;

namespace {

/// 50 digits: enough for the tenth powers of Filip, whose columns are all but dependent.
using Wide = boost::multiprecision::number<boost::multiprecision::cpp_bin_float<50>, boost::multiprecision::et_off>;
template <class Number>
using Column = Eigen::Matrix<Number, Eigen::Dynamic, 1>;
template <class Number>
using Design = Eigen::Matrix<Number, Eigen::Dynamic, Eigen::Dynamic>;

template <class Number>
Number number(const std::string& text) {
    if constexpr (std::is_same_v<Number, double>) {
        return std::stod(text);
    } else {
        return Number{text};
    }
}

struct Certified {
    std::vector<std::string> estimates;
    std::vector<std::string> deviations;
    std::string residual_deviation;
};
Certified certified(const std::string& name) {
    Certified all;
    for (const TableRow& row : read_table("nist_strd_linear_certified.csv")) {
        if (row.at("dataset") == name) {
            all.estimates.push_back(row.at("certified_estimate"));
            all.deviations.push_back(row.at("certified_sd"));
            all.residual_deviation = row.at("certified_residual_sd");
        }
    }
    return all;
}

/// A constant unless the model has none, then the columns given or powers of the only one.
template <class Number>
LinearFit<Number> fit(const std::string& name, std::size_t coefficients) {
    std::vector<TableRow> rows;
    for (const TableRow& row : read_table("nist_strd_linear_data.csv")) {
        if (row.at("dataset") == name) {
            rows.push_back(row);
        }
    }
    const bool powers = name != "Longley";
    const int lowest = name == "NoInt1" ? 1 : 0;
    Design<Number> design{static_cast<Eigen::Index>(rows.size()), static_cast<Eigen::Index>(coefficients)};
    Column<Number> observed{static_cast<Eigen::Index>(rows.size())};
    for (Eigen::Index i = 0; i < design.rows(); ++i) {
        const TableRow& row = rows[static_cast<std::size_t>(i)];
        observed[i] = number<Number>(row.at("y"));
        const Number x = number<Number>(row.at("x1"));
        Number power = lowest == 0 ? Number{1} : x;
        for (Eigen::Index j = 0; j < design.cols(); ++j) {
            design(i, j) = powers || j == 0 ? power : number<Number>(row.at("x" + std::to_string(j)));
            power *= x;
        }
    }
    return fit_linear(design, observed);
}

/// Right to the last printed digit; a certified zero to 1e-30.
bool prints_as(const Wide& value, const std::string& printed) {
    const std::size_t exponent = printed.find_first_of("Ee");
    const std::string digits = printed.substr(0, exponent);
    const int decimals = static_cast<int>(digits.size() - digits.find('.') - 1);
    const int power = (exponent == std::string::npos ? 0 : std::stoi(printed.substr(exponent + 1))) - decimals;
    const Wide off = abs(Wide{value - Wide{printed}});
    return off <= (Wide{printed} == 0 ? Wide{1e-30} : Wide{0.5001 * pow(Wide{10}, power)});
}
/// Digits right: -log10 of the relative error, at most 16; of a certified zero, of the error itself.
double digits(double value, const std::string& printed) {
    const double true_value = std::stod(printed);
    const double off = std::fabs(value - true_value) / (true_value == 0.0 ? 1.0 : std::fabs(true_value));
    return off < 1e-16 ? 16.0 : -std::log10(off);
}

/// What double reaches at the least: coefficients, errors. The powers of Filip are rounded to double before the fit begins,
/// which alone moves its answer in the eighth digit.
struct Reached {
    const char* name;
    double coefficients;
    double deviations;
};
const Reached reached[] = {{"Norris", 12, 12},  {"NoInt1", 14, 14}, {"Filip", 7, 7},
                           {"Longley", 10, 12}, {"Wampler1", 8, 8}, {"Wampler4", 7, 12}};

}  // namespace

TEST_CASE("certified regressions to every printed digit, with 50 digits") {
    for (const Reached& each : reached) {
        const Certified true_values = certified(each.name);
        const LinearFit<Wide> found = fit<Wide>(each.name, true_values.estimates.size());
        REQUIRE(found.is_decided);
        const std::string name = each.name;
        CAPTURE(name);
        CHECK(prints_as(found.residual_deviation, true_values.residual_deviation));
        for (std::size_t i = 0; i < true_values.estimates.size(); ++i) {
            CAPTURE(i);
            const auto at = static_cast<Eigen::Index>(i);
            CHECK(prints_as(found.coefficients[at], true_values.estimates[i]));
            CHECK(prints_as(found.deviations[at], true_values.deviations[i]));
        }
    }
}

TEST_CASE("certified regressions with double: how many digits are right") {
    for (const Reached& each : reached) {
        const Certified true_values = certified(each.name);
        const LinearFit<double> found = fit<double>(each.name, true_values.estimates.size());
        REQUIRE(found.is_decided);
        double coefficients = 16.0;
        double deviations = digits(found.residual_deviation, true_values.residual_deviation);
        for (std::size_t i = 0; i < true_values.estimates.size(); ++i) {
            const auto at = static_cast<Eigen::Index>(i);
            coefficients = std::fmin(coefficients, digits(found.coefficients[at], true_values.estimates[i]));
            deviations = std::fmin(deviations, digits(found.deviations[at], true_values.deviations[i]));
        }
        const std::string name = each.name;
        MESSAGE(name << ": coefficients to " << coefficients << " digits, errors to " << deviations);
        CHECK(coefficients >= each.coefficients);
        CHECK(deviations >= each.deviations);
    }
}

TEST_CASE("a line through three marks by hand") {
    Design<double> design(3, 2);
    design << 1, 0, 1, 1, 1, 2;
    Column<double> observed(3);
    observed << 1, 2, 4;
    // Means 1 and 7/3; slope (-1 (1 - 7/3) + 1 (4 - 7/3)) / 2 = 3/2, at 0: 7/3 - 3/2 = 5/6. Residuals -1/6, 1/3, -1/6: their
    // squares 1/6 over one to spare. Errors: slope sqrt(1/6 / 2), at 0 sqrt(1/6 (1/3 + 1/2)).
    const auto line = fit_linear<double>(design, observed);
    CHECK(line.is_decided);
    CHECK(line.rank == 2);
    CHECK(line.spare == 1);
    CHECK(line.coefficients[0] == doctest::Approx(5.0 / 6.0).epsilon(1e-14));
    CHECK(line.coefficients[1] == doctest::Approx(1.5).epsilon(1e-14));
    CHECK(line.residuals[1] == doctest::Approx(1.0 / 3.0).epsilon(1e-14));
    CHECK(line.residual_deviation == doctest::Approx(std::sqrt(1.0 / 6.0)).epsilon(1e-14));
    CHECK(line.deviations[0] == doctest::Approx(std::sqrt(5.0 / 36.0)).epsilon(1e-14));
    CHECK(line.deviations[1] == doctest::Approx(std::sqrt(1.0 / 12.0)).epsilon(1e-14));
    // As many marks as coefficients: nothing to spare, no errors told.
    const auto exact = fit_linear<double>(design.topRows(2), observed.head(2));
    CHECK(exact.is_decided);
    CHECK(exact.spare == 0);
    CHECK(exact.residual_deviation == 0.0);
    CHECK(exact.deviations[1] == 0.0);
}

TEST_CASE("columns that say the same are a verdict, what is no fit a fault") {
    Design<double> design(3, 2);
    design << 1, 5, 1, 5, 1, 5;
    const Column<double> observed = Column<double>::Ones(3);
    CHECK(!fit_linear<double>(design, observed).is_decided);
    CHECK(fit_linear<double>(design, observed).rank == 1);
    CHECK(!fit_linear<double>(design.topRows(1), observed.head(1)).is_decided);  // one mark has no line
    CHECK(fit_linear<double>(Design<double>::Zero(3, 2), observed).rank == 0);
    const auto code = [](const Design<double>& d, const Column<double>& o) {
        return refusal_of([&] { (void)fit_linear<double>(d, o); }).code;
    };
    CHECK(code(design, observed.head(2)) == FaultCode::contradiction);
    CHECK(code(Design<double>(3, 0), observed) == FaultCode::missing_field);
    CHECK(code(Design<double>::Ones(200, 101), Column<double>::Ones(200)) == FaultCode::too_much_work);
    design(1, 1) = std::nan("");
    CHECK(code(design, observed) == FaultCode::not_finite);
    CHECK(code(Design<double>::Ones(3, 1), observed / 0.0) == FaultCode::not_finite);
}
