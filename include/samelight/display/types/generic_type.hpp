#pragma once
// What a generic emission model is: words for people, parameters with their sources, a function.
#include <array>
#include <cstddef>
#include <span>
#include <string_view>
#include <vector>

#include "samelight/display/types/emission.hpp"
#include "samelight/numeric/form.hpp"
#include "samelight/spectrum/sampling.hpp"

namespace samelight::inline SAMELIGHT_FORM {

/// What a parameter is, and so which values make sense at all (wider than the plausible range).
enum class ParameterKind {
    /// nm, 300 to 900
    wavelength,
    /// nm, above 0 and up to 300
    width,
    /// Relative power or height, 0 to 1000.
    factor,
    /// 0 to 1, 1 excluded
    share,
    /// nm, -20 to 20
    shift
};

/// One figure of a generic model.
struct ModelParameter {
    /// In words: "green peak".
    std::string_view name{};
    /// "nm", or "1" for a share or a factor
    std::string_view unit{};
    /// The default: a cited figure, or the middle of a cited range.
    double value = 0.0;
    /// Plausible range, low end; low <= value <= high.
    double low = 0.0;
    /// Plausible range, high end.
    double high = 0.0;
    /// A published reference, "from memory: ..." or "modelling choice: ...".
    std::string_view source{};
    ParameterKind kind = ParameterKind::factor;
};

/// How a type of display is named and told.
struct TypeTitle {
    /// By which it is asked for: "oled-rgb".
    std::string_view name;
    /// In trade words.
    std::string_view title;
    /// One line by which a person at the set recognises the type.
    std::string_view recognise;
};

/// A kind of display by its physics: which bands it emits, from a handful of sourced figures.
///
/// A generic model says what a type of display looks like to a spectroradiometer, not what a unit
/// does: units differ from it by about 2 nm in their peaks, so answers drawn from it hold two or
/// three places. No figure was adjusted to reach a colorimetric target.
class SAMELIGHT_API GenericModel {
  public:
    /// Spectra from values in parameters() order, already validated.
    using EmissionFunction = EmissionSpectra (*)(std::span<const double>, const Sampling&);

    /// From its names, its parameters and the function that makes spectra of them; all are lent and must outlive the model.
    constexpr GenericModel(const TypeTitle& type, std::span<const ModelParameter> parameters,
                           EmissionFunction function)
        : name_(type.name),
          title_(type.title),
          recognise_(type.recognise),
          parameters_(parameters),
          function_(function) {}

    /// The name by which it is asked for: "oled-rgb".
    [[nodiscard]] constexpr std::string_view name() const noexcept { return name_; }
    /// In trade words.
    [[nodiscard]] constexpr std::string_view title() const noexcept { return title_; }
    /// One line by which a person at the set recognises the type.
    [[nodiscard]] constexpr std::string_view recognise() const noexcept { return recognise_; }
    /// The figures it rests on. Valid for the whole run of the program.
    [[nodiscard]] constexpr std::span<const ModelParameter> parameters() const noexcept {
        return parameters_;
    }

    /// The default of each parameter, in parameters() order.
    [[nodiscard]] std::vector<double> default_values() const;

    /// The primaries' spectra for `values`, one a parameter in parameters() order, each in that
    /// parameter's unit. Values may lie outside the plausible range as long as they make physical
    /// sense (ParameterKind).
    ///
    /// The spectra are on `sampling`; area and centroid of every band are kept on any step (see
    /// EmittedLight). The exception is "crt": its measured table stays on its own grid, 380-780 nm
    /// by 5 nm, whatever `sampling` asks, because its lines were recorded no finer than that and a
    /// spectrum enters a finer sampling by its own plain sum; interpolating it first would move its
    /// lines' light. Throws Error (shape) for another count of values; Error (domain), naming model
    /// and parameter, for a value that isn't finite or makes no physical sense, and for a sampling
    /// of fewer than 2 wavelengths or with a step over 20 nm.
    [[nodiscard]] EmissionSpectra emission(std::span<const double> values,
                                           const Sampling& sampling) const;

    /// The same with every parameter at its default.
    [[nodiscard]] EmissionSpectra emission(const Sampling& sampling = Sampling{}) const {
        return emission(default_values(), sampling);
    }

  private:
    void validate(std::span<const double> values) const;

    static bool makes_sense(ParameterKind kind, double value);

    static std::string_view wanted(ParameterKind kind);

    std::string_view name_;
    std::string_view title_;
    std::string_view recognise_;
    std::span<const ModelParameter> parameters_;
    EmissionFunction function_;
};

/// The parameters of one list followed by those of another. Own helper.
template <std::size_t M, std::size_t N>
constexpr std::array<ModelParameter, M + N> joined(const std::array<ModelParameter, M>& first,
                                                   const std::array<ModelParameter, N>& second) {
    std::array<ModelParameter, M + N> result{};
    for (std::size_t i = 0; i < M; ++i) {
        result[i] = first[i];
    }
    for (std::size_t i = 0; i < N; ++i) {
        result[M + i] = second[i];
    }
    return result;
}

}  // namespace samelight

#if !SAMELIGHT_COMPILED
#include "samelight/display/types/impl/generic_type.ipp"
#endif
