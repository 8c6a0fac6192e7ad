#pragma once
// How good a correction is: what it does to colours and rounds that it was not made from, and what was odd about the readings. Own rules.
#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/meter/correction/certainty.hpp"
#include "samelight/meter/correction/correction.hpp"
#include "samelight/meter/correction/fit.hpp"
#include "samelight/meter/readings/column_checks.hpp"
#include "samelight/meter/readings/drift.hpp"
#include "samelight/meter/readings/odd_luminances.hpp"
#include "samelight/meter/readings/outliers.hpp"
#include "samelight/meter/readings/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The error of one corrected reading whose patch, or round, the correction did not use.
struct ProvenError {
    std::string patch;
    /// 0 for the mean of all rounds
    int round = 0;
    ColourError error;
};

/// One number of many errors.
struct Spread {
    double mean = 0.0, root_mean_square = 0.0, largest = 0.0;
};

/// Errors by measure, each without sign.
struct ErrorSummary {
    std::size_t count = 0;
    /// Distances in x, y and in u', v'; Y relative.
    Spread xy, uv, luminance;
    /// CIEDE2000; absent without a white
    std::optional<Spread> de00 = {};
};

namespace detail {

Spread spread_of(const std::vector<double>& values);

}  // namespace detail

/// Mean, root mean square and largest of the errors' sizes; all 0 for none.
SAMELIGHT_API ErrorSummary summarise(const std::vector<ProvenError>& errors);

namespace detail {

std::optional<std::array<double, 3>> white_of(const ReadingSet& set);

}  // namespace detail

/// As many patches, or rounds, are left out one by one. Of more, one in so many is left out at a time, counted through in their order, so that the
/// time grows with their number and not with its square (cross-validation in groups: common practice, no source).
inline constexpr std::size_t most_proof_groups = 100;

/// The proof by colours left out. For least squares each patch (of many, each group) is left out in turn and read with the correction that the others give; white that must be
/// exact stays in, and so does a patch without which the others would depend on each other. The other methods are read on the patches that they don't use.
/// Empty where there is no such patch: then nothing is proven.
/// Throws as fit_correction.
SAMELIGHT_API std::vector<ProvenError> left_out_errors(const ReadingSet& readings,
                                                       const FitOptions& options = {});

/// The proof by repeated reading: each round is read with the correction that the other rounds give (weights, where the method has them, from the scatter
/// of all). What is left holds the noise of a single reading of both instruments. A round without which the method lacks a patch is passed over.
/// Empty for a single round. Throws as fit_correction.
SAMELIGHT_API std::vector<ProvenError> repeated_reading_errors(const ReadingSet& readings,
                                                               const FitOptions& options = {});

/// Everything that speaks for or against a correction.
struct FitQuality {
    /// Of the corrected white; absent without repeats, stated noise or white.
    std::optional<Certainty> white = {};
    std::vector<ProvenError> left_out = {};
    std::vector<ProvenError> repeated = {};
    double condition_number = 1.0;
    std::vector<WhiteDrift> drift = {};
    std::vector<SteadyDrift> steady_drift = {};
    std::vector<OddReading> odd_readings = {};
    std::vector<OddReading> odd_patches = {};
    std::vector<OddLuminance> odd_luminances = {};
    /// Columns that look exchanged, by the readings alone or else once corrected; not asked of raw channels.
    std::optional<ExchangeFound> exchanged = {};
    /// A white that is no display's; likewise.
    std::optional<OddWhite> odd_white = {};
    std::vector<Warning> warnings = {};
};

/// Judges a correction by the readings that it was made from, with the options it was made with. Throws as fit_correction.
SAMELIGHT_API FitQuality judge_fit(const ReadingSet& readings, const Correction& correction,
                                   const FitOptions& options = {});

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/fit_quality.ipp"
#endif
