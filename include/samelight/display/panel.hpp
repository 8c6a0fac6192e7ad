#pragma once
// A panel: the light of its emitters as measured, its native white, its black, and what was found when they were compared.
#include <array>
#include <cstddef>
#include <optional>
#include <string>

#include <Eigen/Core>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The spectra a panel is made from: each primary at full drive, and optionally white at full drive and black.
struct PanelSpectra {
    Spectrum red, green, blue;
    std::optional<Spectrum> white = std::nullopt;
    std::optional<Spectrum> black = std::nullopt;
    /// False where each spectrum is scaled for itself, so that their ratios say nothing.
    bool common_scale = true;
};

/// How white at full drive compares with red + green + blue (after black, where it is known, has been taken from all four).
struct SAMELIGHT_API Additivity {
    /// Y of red + green + blue over Y of white
    double luminance_ratio;
    /// x, y of red + green + blue minus that of white
    ChromaticityOffset<Cie1931_2deg> offset;
    /// Sum of |white - (red + green + blue)| over the sum of white.
    double spectral_difference;
    /// How much red, green and blue light white holds, each relative to its own column, where that is all that white holds: least squares
    /// leave at most 5 % of it, in sums of sizes. None where white holds other light as well, that of a white emitter.
    std::optional<std::array<double, 3>> amounts = std::nullopt;

    /// True where white is nothing but red + green + blue: within 2 % in luminance, .001 in x and y, and 5 % of the light
    /// wavelength by wavelength (a white emitter can hide behind equal colour).
    [[nodiscard]] bool additive() const;
};

/// A column that was read too low or too high beside the others, as white tells.
struct MisreadColumn {
    /// 0 red, 1 green, 2 blue
    std::size_t primary;
    /// What was read over what white, and the other two columns, say: 0.7 is 30 % too low.
    double read;
};

/// The column that fits least well to a white that holds nothing but red, green and blue: the one whose amount in white is furthest, by
/// ratio, from the middle one of the three; none where that is less than 5 % (a display's drift while it is measured is less: common
/// practice, no source) or where `white` holds other light. Of two columns misread alike the third is named: what
/// is certain is that they don't fit together. Own rule.
SAMELIGHT_API std::optional<MisreadColumn> misread_column(const Additivity& white);

class GenericModel;

/// A display's light on one sampling: the matrix P of T P w = T r, with the white it shows at full drive.
///
/// Black, where measured, is in every one of the other measurements too; it is taken from red, green, blue and white on the way
/// in, so that emitters() and white() are what the drive adds, and is added once to every light the panel shows. Where black was
/// not measured it is taken as none, and stays inside the primaries.
class SAMELIGHT_API Panel {
  public:
    using Columns = PanelLights::Columns;

    /// Throws Error (singular) for primaries that depend on each other (for the CIE 1931 observer the smallest singular value of
    /// their chromaticity directions is under a hundredth of the largest), Error (domain) for a primary without light and for primaries
    /// under each other's names.
    Panel(std::string name, const PanelSpectra& spectra, const Sampling& sampling = {});

    /// The panel's name, for messages.
    [[nodiscard]] const std::string& name() const noexcept { return name_; }
    /// The generic model whose spectra these are; null where they were measured on the unit. What works out uncertainty asks for it.
    [[nodiscard]] const GenericModel* model() const noexcept { return model_; }
    /// The same panel, its spectra said to be those of a generic model, which must outlive it as the built-in ones do.
    [[nodiscard]] Panel made_from(const GenericModel& model) const {
        Panel result = *this;
        result.model_ = &model;
        return result;
    }
    [[nodiscard]] const Sampling& sampling() const noexcept { return sampling_; }

    // Of a panel that is gone at the end of the expression each of these is a copy.

    /// All columns, made for sums. Valid as long as this object is.
    [[nodiscard]] PanelLights lights() const&& { return static_cast<const Panel&>(*this).lights(); }
    [[nodiscard]] const PanelLights& lights() const& noexcept { return lights_; }
    /// The same as they may lie between the samples of coarse spectra, for whatever looks at their shape; see SampledLight.
    [[nodiscard]] PanelLights spread() const&& { return static_cast<const Panel&>(*this).spread(); }
    [[nodiscard]] const PanelLights& spread() const& noexcept {
        return spread_ ? *spread_ : lights_;
    }
    /// Where the spectra's own samples lie. Of spectra with unlike grids: the coarsest step, on no common wavelengths.
    [[nodiscard]] const OwnGrid& grid() const noexcept { return grid_; }

    /// Light of red, green and blue at full drive, without black: n x 3. Valid as long as this object is.
    [[nodiscard]] Columns emitters() const&& { return static_cast<const Panel&>(*this).emitters(); }
    [[nodiscard]] Eigen::Map<const Columns> emitters() const& { return lights_.emitters(); }
    /// The white that a match starts from, without black: n x 1. Red + green + blue where white is nothing else, in whatever amounts,
    /// within Additivity's limits, else as measured.
    [[nodiscard]] Eigen::VectorXd white() const&& {
        return static_cast<const Panel&>(*this).white();
    }
    [[nodiscard]] PanelLights::Column white() const& { return lights_.white(); }
    /// The white at full drive as it was measured, or red + green + blue where it wasn't: n x 1, without black.
    [[nodiscard]] Eigen::VectorXd native_white() const&& {
        return static_cast<const Panel&>(*this).native_white();
    }
    [[nodiscard]] PanelLights::Column native_white() const& { return lights_.native_white(); }
    /// Light that is there at drive 0: n x 1.
    [[nodiscard]] Eigen::VectorXd black() const&& {
        return static_cast<const Panel&>(*this).black();
    }
    [[nodiscard]] PanelLights::Column black() const& { return lights_.black(); }

    /// True where the native white holds light that isn't red, green or blue: it is then the base that they tune.
    [[nodiscard]] bool white_is_base() const {
        return additivity_ && !additivity_->additive() && !additivity_->amounts;
    }
    /// Whether the ratios of the primaries mean anything. Without it drive and cost in light are unknown, unless white is the base.
    [[nodiscard]] bool scale_known() const noexcept { return scale_known_; }
    /// Whether the native white's own colour is known: from its own measurement, or as the sum of primaries on one scale.
    [[nodiscard]] bool white_known() const { return scale_known_ || additivity_.has_value(); }
    [[nodiscard]] bool black_known() const noexcept { return black_known_; }
    /// Whether black was measured and there is more in it than noise.
    [[nodiscard]] bool black_measurable() const noexcept { return black_measurable_; }
    /// Whether the primaries' common scale was found by fitting them to the measured white, so that comparing both proves nothing.
    [[nodiscard]] bool scale_fitted() const noexcept { return scale_fitted_; }
    /// Present where white was measured. Of columns on one scale as they were read, before any were scaled to fit white; of others after.
    [[nodiscard]] const std::optional<Additivity>& additivity() const noexcept {
        return additivity_;
    }
    /// Largest share of any column's light that lay outside the sampling's range; what can't be told from the column's noise there is none.
    [[nodiscard]] double outside_fraction() const noexcept { return outside_fraction_; }

  private:
    [[nodiscard]] std::size_t size() const { return static_cast<std::size_t>(sampling_.count()); }

    /// All spectra as rebin() gives them.
    void take_in(const PanelSpectra& spectra);

    /// What columns are compared by, wavelength by wavelength: spectra of one grid by their own samples.
    [[nodiscard]] const PanelLights& compared() const noexcept {
        return grids_differ_ ? spread() : lights_;
    }

    [[nodiscard]] Tristimulus<Cie1931_2deg> seen(const Eigen::VectorXd& light) const {
        return tristimulus<Cie1931_2deg>(SampledLight{sampling_, {light.begin(), light.end()}});
    }

    void require_independent() const;

    /// Red must be the reddest (largest x), green the greenest (largest y), blue the bluest (smallest y). Swapped columns give a right
    /// target and send the hand to the wrong control.
    void require_names_to_fit(const Eigen::Matrix3d& directions) const;

    static const char* primary_name(Eigen::Index k);

    /// Each primary's amount in the measured white, by least squares over wavelength.
    [[nodiscard]] std::array<double, 3> amounts_in_white() const;

    void scale_emitters(const std::array<double, 3>& by);

    /// Used where the columns' own scales say nothing.
    void fit_scale_to_white();

    [[nodiscard]] Additivity compare_with_sum() const;

    std::string name_;
    const GenericModel* model_ = nullptr;
    Sampling sampling_;
    PanelLights lights_;
    /// Where a spectrum's step is coarser than the sampling's.
    std::optional<PanelLights> spread_;
    OwnGrid grid_;
    bool grids_differ_ = false;
    bool black_known_ = false;
    bool black_measurable_ = false;
    bool scale_fitted_ = false;
    bool scale_known_ = true;
    std::optional<Additivity> additivity_;
    double outside_fraction_ = 0.0;
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/impl/panel.ipp"
#endif
