#pragma once
// The shapes that emission is made of, and how they reach a wavelength grid without losing light.
#include <cstddef>
#include <limits>
#include <optional>
#include <vector>

#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// The spectra of a display's primaries at full drive, relative spectral radiance over nm.
///
/// The scale of each of red, green and blue is its own: only shapes are meant. `white` is there for
/// a display with a white sub-pixel that red, green and blue tune; its scale is its own too.
struct EmissionSpectra {
    Spectrum red;
    Spectrum green;
    Spectrum blue;
    std::optional<Spectrum> white = std::nullopt;
};

/// Power of a band of a given height: its height x its full width at half height x this factor,
/// sqrt(pi / (4 ln 2)). Holds for a Gaussian and for one whose two sides have different widths.
inline constexpr double band_power_factor = 1.0644670194312262;

/// Light that is being put together from bands, on a grid of 0.25 nm or finer.
///
/// Bands are integrated over each cell of the fine grid, never sampled at a point, so a line
/// narrower than a cell keeps its power. spectrum() then shares each cell between the two
/// wavelengths of the asked sampling beside it, by the transpose of interpolating an observer
/// linearly: the same weights with which a spectrum enters a sampling (rebinning.hpp). Power and
/// centroid are kept whatever the step.
///
/// Error: power to 1e-12 of itself. Centroid to t / pi exp(-(pi w / t)^2 / (4 ln 2)) for a width w
/// at half height and a fine cell t of 0.25 nm or less (the sawtooth of rounding to cells, averaged
/// over a Gaussian): below 1e-9 nm for widths of 0.6 nm or more, never above half a cell. An
/// observer's response, against one that is linear between wavelengths of the sampling: t^2 / 8 x
/// its largest second difference per nm^2. Cells and sharing widen a band: its variance grows by
/// t^2 / 12 and, on average over where the peak falls in a step, by (step^2 - t^2) / 6.
/// Range: light within the asked sampling; what lies outside is left out, and nothing is folded in.
class SAMELIGHT_API EmittedLight {
  public:
    /// No light yet. `asked` needs 2 wavelengths or more and a step of at most 20 nm; throws Error
    /// (domain) otherwise.
    explicit EmittedLight(const Sampling& asked);

    /// Adds a Gaussian band of `power` (area, >= 0), peak and full width at half height in nm (>
    /// 0). Throws Error (domain) for anything else.
    EmittedLight& add_band(double power, double peak_nm, double fwhm_nm) {
        return add_skewed_band(power, peak_nm, fwhm_nm, 0.5);
    }

    /// Adds a band whose two sides are halves of Gaussians of different width: `short_side` (0 to
    /// 1, both excluded) is the share of the full width at half height that lies below the peak.
    /// Ranges and errors as for add_band(). Throws as add_band(), and Error (domain) for such a share outside its range.
    EmittedLight& add_skewed_band(double power, double peak_nm, double fwhm_nm, double short_side);

    /// Adds `factor` (finite, >= 0) times another light on the same sampling. Throws Error (shape)
    /// for another sampling, (domain) for another factor.
    EmittedLight& add(const EmittedLight& other, double factor);

    /// This light behind a filter: `transmittance(nm)` gives the share let through, 0 to 1.
    template <class Transmittance>
    [[nodiscard]] EmittedLight through(const Transmittance& transmittance) const {
        EmittedLight result = *this;
        for (std::size_t i = 0; i < density_.size(); ++i) {
            result.density_[i] *= transmittance(cell_centre_nm(i));
        }
        return result;
    }

    /// The light on the sampling asked for, power per nm. Throws nothing but std::bad_alloc.
    [[nodiscard]] Spectrum spectrum() const;

  private:
    /// One band of power 1.
    struct Band {
        double peak_nm;
        double fwhm_nm;
        double short_side;

        /// Power beyond `nm` on the side away from the peak. Never 1 minus something small, so that
        /// the tails keep their digits.
        [[nodiscard]] double tail(double nm) const;
    };

    static void require_band(double power, double peak_nm, double fwhm_nm, double short_side);

    [[nodiscard]] double cell_centre_nm(std::size_t index) const {
        return asked_.first_nm() - asked_.step_nm() + cell_nm_ * static_cast<double>(index);
    }

    Sampling asked_;
    int cells_per_step_ = 1;
    double cell_nm_ = 1.0;
    std::vector<double> density_;
};

/// A colour filter with logistic edges and a floor that leaks at every wavelength.
///
/// T(nm) = leak + (1 - leak) s((nm - short) / short_width) s((long - nm) / long_width), with
/// s(t) = 1 / (1 + exp(-2 ln 9 t)): 0.5 at an edge's own wavelength, 0.1 to 0.9 over the edge's
/// width. nm; leak as a share, 0 to 1. An edge that the filter lacks stands at -infinity or
/// +infinity. Source: modelling choice. Dyes and pigments differ in the shape of their edges; what
/// matters for a display is where an edge stands, how steep it is, and how much light leaks between
/// primaries.
struct SAMELIGHT_API ColourFilter {
    double short_edge_nm = -std::numeric_limits<double>::infinity();
    double long_edge_nm = std::numeric_limits<double>::infinity();
    double short_width_nm = 1.0;
    double long_width_nm = 1.0;
    double leak = 0.0;

    /// Transmittance at `nm`, 0 to 1.
    [[nodiscard]] double operator()(double nm) const;

  private:
    static double edge(double t);
};

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/emission.ipp"
#endif
