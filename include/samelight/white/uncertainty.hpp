#pragma once
// What is said of a target's uncertainty, and of the instrument behind it, as plain values. What works them out is in budget.
#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "samelight/numeric/covariance_matrix.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM {

namespace detail {

/// The probability that a normal quantity lies within twice its standard deviation: the coverage of an expanded uncertainty, "95 %".
inline constexpr double covered = 0.954499736103642;

/// Expanded uncertainty (coverage 95 %) of a quantity whose mean square about the value said is `even` + `normal`: one cause pushes it anywhere
/// from 0 to sqrt(3 even), evenly, all others together as a normal quantity does.
SAMELIGHT_API double half_width(double even, double normal);

}  // namespace detail

/// How far the targets of units lie from a target as said, unit minus said.
struct UnitDisplacement {
    /// xx, xy, yx, yy
    CovarianceMatrix<2> mean_square;
    std::array<double, 2> mean;
};

/// What would shrink a cause of uncertainty; report/advice_words.hpp has it in English.
enum class BudgetRemedy {
    /// Spectra exported at a finer step.
    finer_step,
    /// A check of the instrument's wavelength scale on known lines.
    check_wavelength_scale,
    /// A narrower bandwidth, or spectra corrected for it.
    narrower_bandwidth,
    /// An instrument with less stray light, or one corrected for it.
    less_stray_light,
    /// More readings of every light that was measured.
    average_spectra,
    /// Several readings of the white while it is set.
    average_white,
    /// A match by eye of the viewer BudgetPart::viewer, who has made none.
    match_by_viewer,
    /// One more match by eye: all viewers have made one.
    match_once_more,
    /// To say who watches and how large the white is seen, or a match by eye.
    name_viewer,
    /// The white measured as it is set.
    measure_white,
    /// A match by eye, and nothing else.
    only_by_eye,
    /// Spectra of this very unit, of which x, y, Y were read.
    measure_spectra,
    /// Spectra of this very unit, of which the type is known.
    measure_unit,
    /// To say who the viewers are, or a match by eye.
    name_viewers,
    /// Nothing: the people are the viewers that were named.
    none_viewers_named
};

/// "finer_step", "check_wavelength_scale", ...: the enumerator's name.
SAMELIGHT_API const char* code_of(BudgetRemedy remedy);

/// One cause of uncertainty about a target.
struct SAMELIGHT_API BudgetPart {
    /// For programs: "panel_spectrum", "wavelength_scale", ...
    std::string code;
    /// Mean square of the displacement that it causes in CIE 1931 x and y, about the target as said: xx, xy, yx, yy. The target as
    /// said isn't corrected for what a one-sided cause (bandwidth, stray light) does on average, as JCGM 100:2008, F.2.4.5 would
    /// have it, since that depends on an instrument of which only limits are known; so the whole displacement counts, by its
    /// mean square. That is our choice. It covers: for anything between 0 and d twice the root mean square is 2 d / sqrt 3.
    /// See `evenly_from_zero` for the cause where that would be too much.
    CovarianceMatrix<2> covariance;
    /// What would shrink it.
    BudgetRemedy remedy = BudgetRemedy::finer_step;
    /// Mean displacement in x and y, said minus right, which is part of `covariance`; 0 for a cause that pushes both ways alike.
    std::array<double, 2> mean = {0.0, 0.0};
    /// Whether the cause displaces by anything from 0 to one certain end, one as likely as another: between two choices, say.
    bool evenly_from_zero = false;
    /// Whether it is about the eyes that look, which observer describes them or how well the viewers' are known, not about the light.
    bool of_the_eye = false;
    /// Letter of the viewer whose match by eye would shrink it (BudgetRemedy::match_by_viewer); else empty.
    std::string viewer = {};

    /// Expanded uncertainty of x and y by this cause alone, coverage 95 %.
    [[nodiscard]] double half_width_x() const { return half_width(covariance[0]); }
    [[nodiscard]] double half_width_y() const { return half_width(covariance[3]); }
    /// Root mean square distance in x, y.
    [[nodiscard]] double size() const { return std::sqrt(covariance[0] + covariance[3]); }

  private:
    [[nodiscard]] double half_width(double variance) const;
};

/// What a target's uncertainty is made of. How far people differ stands beside it and is never added to it.
struct SAMELIGHT_API TargetBudget {
    /// Those that apply, in a fixed order; one at least.
    std::vector<BudgetPart> parts;
    /// Their sum: how sure the target is.
    CovarianceMatrix<2> covariance;
    /// How far people differ about it.
    std::optional<BudgetPart> people;
    /// Parts that were left out.
    std::vector<Warning> warnings = {};

    /// Expanded uncertainties of x and y, coverage 95 %: twice the standard uncertainty, but for the largest cause that displaces by
    /// anything from 0 to an end, which is taken for what it is (JCGM 100:2008, G.2.2 and G.6.5: where one rectangular distribution
    /// dominates, twice the standard uncertainty is too wide), the rest as normal.
    [[nodiscard]] double half_width_x() const { return half_width(0); }
    [[nodiscard]] double half_width_y() const { return half_width(3); }
    /// The sum of the parts that aren't about the eyes: what panel, instrument and light leave open. Variances and covariance of x and y, 2
    /// x 2, row after row.
    [[nodiscard]] CovarianceMatrix<2> covariance_of_light() const;
    /// The part with the largest size().
    [[nodiscard]] const BudgetPart& dominant() const;
    /// The dominant part's share of the sum of the variances of x and y, 0 to 1.
    [[nodiscard]] double dominant_share() const;

  private:
    [[nodiscard]] double half_width(std::size_t at) const;
};

/// What is known of the instrument that measures the spectra and reads the white. The defaults are those of a good field
/// spectroradiometer (common practice, no source); a data sheet's figures belong here.
struct InstrumentLimits {
    /// Its wavelength scale is right within this, evenly.
    double wavelength_shift_nm = 0.3;
    /// Full width at half maximum, not corrected for.
    double bandwidth_nm = 5.0;
    /// Of the peak, at most.
    double stray_light = 2e-4;
    /// Standard deviation of a sample, of the peak.
    double noise = 5e-4;
    /// Of the spectra; 0: that of the file, or of the sampling in use.
    double step_nm = 0.0;
    /// Standard deviation of x and of y of one reading.
    double reading_noise_xy = 5e-4;
};

namespace detail {

void require_limits(const InstrumentLimits& limits);

}  // namespace detail

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/white/impl/uncertainty.ipp"
#endif
