#pragma once
// A correction: the matrix that turns what the meter says into what the reference would have said, and what is known about it.
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "samelight/meter/readings/noise.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/tristimulus.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// How a correction was made.
enum class CorrectionMethod {
    /// From the chromaticities of red, green, blue and white alone: blind to luminance errors.
    four_colour,
    /// Exact in X, Y, Z for red, green and blue.
    three_colour,
    /// Least sum of squared residuals in X, Y, Z over all patches.
    least_squares,
    /// The same, each residual weighted by its own covariance.
    weighted_least_squares,
    /// Least squares, with white exact.
    white_exact_least_squares,
    /// One white: an offset of x and y, good for whites near it.
    white_only,
    /// From the meter's sensitivities and the panel's spectra.
    spectra
};

/// The name of a method in files and answers ("four-colour").
SAMELIGHT_API const char* code_of(CorrectionMethod method);

/// What to do with a correction on the display that it was made on.
enum class FitVerdict {
    /// Colours that it was not made from prove it.
    use,
    /// Nothing speaks against it, no colour proves it.
    use_unproven,
    /// The readings can't tell the uncorrected meter from the reference.
    not_needed,
    /// An odd reading, a drifting white, exchanged columns, no word on noise and no proof either, or too much noise to tell or to be of
    /// use.
    read_again,
    /// On colours that it was not made from it is no better than none.
    do_not_use
};

/// "use", "use_unproven", "not_needed", "read_again" or "do_not_use".
SAMELIGHT_API const char* code_of(FitVerdict verdict);

/// How far a corrected reading is from the reference's: corrected minus reference.
struct ColourError {
    /// CIE x, y
    double x = 0.0, y = 0.0;
    /// u', v'
    double u = 0.0, v = 0.0;
    /// Relative to the reference's Y.
    double luminance = 0.0;
    /// CIEDE2000, white being the reference's white; absent without a white
    std::optional<double> de00 = {};

    /// Distance in x, y and in u', v', without unit.
    [[nodiscard]] double xy() const { return std::hypot(x, y); }
    [[nodiscard]] double uv() const { return std::hypot(u, v); }
};

/// What is left of the difference between the instruments on one patch.
struct PatchResidual {
    std::string patch;
    /// Whether the fit used this patch; where it did, a small residual proves little.
    bool fitted = false;
    /// The meter as it stands.
    ColourError before;
    /// Corrected.
    ColourError after;
};

/// Covariance of a correction's ten parameters, the nine elements and the relative luminance factor, in the parts that a correction file
/// has. Not a CovarianceMatrix<10>: where nobody knows how Y scatters it has a part only.
struct ParameterCovariance {
    /// 9 x 9, of reference_from_meter row after row
    std::array<double, 81> elements{};
    /// Of each element with the relative luminance factor.
    std::array<double, 9> with_luminance{};
    /// Variance of the relative luminance factor.
    double luminance = 0.0;
    /// False where nobody said how Y scatters: both of it are 0 then, and mean nothing.
    bool luminance_known = true;
};

/// How the nine elements and the relative luminance factor move with the mean of one patch, and with which noise.
struct SAMELIGHT_API NoiseTerm {
    std::string patch;
    /// 10 x 6, row after row; columns as in ReadingNoise
    std::array<double, 60> parameters_from_reading{};
    /// Pairs that were averaged.
    double count = 1.0;
    /// Which of Correction::noise.
    std::size_t group = 0;
    /// Of the digits: no repeat takes any of it away.
    bool rounding = false;

    using Matrix = Eigen::Matrix<double, 10, 6, Eigen::RowMajor>;
    /// The derivatives, 10 x 6. Valid as long as this object is.
    [[nodiscard]] Matrix matrix() const&& { return static_cast<const NoiseTerm&>(*this).matrix(); }
    [[nodiscard]] Eigen::Map<const Matrix> matrix() const&;
};

/// Where a correction came from, as free text; any of it may be empty.
struct Provenance {
    std::string panel, reference_instrument, meter_instrument, date, picture_mode, window, level,
        note;
};

/// A disc of chromaticities, CIE x, y as the meter reads them.
struct ChromaticityDisc {
    double x = 0.0, y = 0.0, radius = 0.0;
    /// Whether x, y lies in the disc, its rim included.
    [[nodiscard]] bool contains(double at_x, double at_y) const {
        return std::hypot(at_x - x, at_y - y) <= radius;
    }
};

/// A correction of a meter on one display.
///
/// reference X, Y, Z = luminance_factor * reference_from_meter * meter X, Y, Z. The matrix alone decides the chromaticity; its scale is such
/// that it keeps X + Y + Z of the white it was made with (of the brightest patch where there was no white).
struct SAMELIGHT_API Correction {
    /// Row after row.
    std::array<double, 9> reference_from_meter{1, 0, 0, 0, 1, 0, 0, 0, 1};
    double luminance_factor = 1.0;
    /// Id of the observer whose values it gives.
    std::string observer;
    CorrectionMethod method = CorrectionMethod::four_colour;
    /// Absent where nothing is known about noise.
    std::optional<ParameterCovariance> covariance = {};
    /// Behind the covariance: the fewest of any part that makes over 1 % of it.
    double degrees_of_freedom = 0.0;
    /// The noise that went into it, one entry a group of patches; empty when read from a file.
    std::vector<ReadingNoise> noise = {};
    /// Likewise.
    std::vector<NoiseTerm> noise_terms = {};
    /// Which of `noise` is that of any reading.
    std::optional<std::size_t> reading_noise = {};
    std::vector<PatchResidual> residuals = {};
    /// Of the patches' directions in X, Y, Z, each made length 1: how independent they are.
    double condition_number = 1.0;
    /// Present where it holds near one white only.
    std::optional<ChromaticityDisc> valid_near = {};
    /// Of the readings that it was made from; absent where nobody judged it.
    std::optional<FitVerdict> verdict = {};
    /// What it corrects are the meter's raw channels, not X, Y, Z: without it they are no colours.
    bool raw_channels = false;
    Provenance provenance = {};
    std::vector<Warning> warnings = {};

    using Matrix = Eigen::Matrix<double, 3, 3, Eigen::RowMajor>;
    /// Reference from meter, 3 x 3. Valid as long as this object is.
    [[nodiscard]] Matrix matrix() const&& { return static_cast<const Correction&>(*this).matrix(); }
    [[nodiscard]] Eigen::Map<const Matrix> matrix() const&;
    /// The matrix with the luminance factor in it: reference X, Y, Z from the meter's.
    [[nodiscard]] std::array<double, 9> xyz_from_meter() const;
    /// Corrected X, Y, Z of a reading, cd/m2, without any question whether the correction holds there.
    [[nodiscard]] std::array<double, 3> corrected_xyz(const std::array<double, 3>& meter) const;
};

/// A corrected reading and what must be known about it.
struct Corrected {
    /// cd/m2, of the correction's observer
    Tristimulus<Any> xyz;
    std::vector<Warning> warnings;
};

/// What the reference would have read where the meter reads `meter` (X, Y, Z, cd/m2).
/// Range: finite values; warns (outside_validity) where the correction is for whites near one white and this is none.
/// Throws Error (domain) for values that aren't finite. Own range check; the rest is a product of matrices.
SAMELIGHT_API Corrected corrected_reading(const Correction& correction,
                                          const std::array<double, 3>& meter);

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/meter/correction/impl/correction.ipp"
#endif
