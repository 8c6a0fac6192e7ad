#pragma once
// Everything that an argument of the C interface may be instead of what it should be.
#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <type_traits>
#include <vector>

#include "samelight/c/samelight.h"

namespace c_interface {

/// Numbers that are out of range somewhere.
inline std::vector<double> odd_numbers() {
    const double infinite = std::numeric_limits<double>::infinity();
    return {
        std::numeric_limits<double>::quiet_NaN(), infinite, -infinite, 0.0, -1.0, 1e308, 5e-324};
}

/// Counts, strides and indices that no array here has, or all have.
inline std::vector<std::size_t> odd_counts() {
    constexpr std::size_t most = std::numeric_limits<std::size_t>::max();
    return {0, most, most / 2 + 1, most / 8 + 1};
}

/// The members of a struct that may be bent: how it is done, one after another.
template <class S>
class Bends {
  public:
    Bends& number(double S::*member) {
        for (const double odd : odd_numbers())
            all_.push_back([=](S& s) { s.*member = odd; });
        return *this;
    }
    Bends& count(std::size_t S::*member) {
        for (const std::size_t odd : odd_counts())
            all_.push_back([=](S& s) { s.*member = odd; });
        return *this;
    }
    Bends& size() {
        all_.push_back([](S& s) { s.size = 8; });
        all_.push_back([](S& s) { s.size = sizeof(S) + 8; });
        return count(&S::size);
    }
    Bends& whole(std::int32_t S::*member) {
        for (const std::int32_t odd : {0, -1, 1 << 30, std::numeric_limits<std::int32_t>::min()}) {
            all_.push_back([=](S& s) { s.*member = odd; });
        }
        return *this;
    }
    template <class T>
    Bends& pointer(T S::*member) {
        static_assert(std::is_pointer_v<T>);
        all_.push_back([=](S& s) { s.*member = nullptr; });
        return *this;
    }
    Bends& text(const char* S::*member) {
        for (const char* odd : {"", "\xff\xfe", "a name\nin two lines", "pq:nan", "power:1e999",
                                "cie2006:1:1", "../x.csv"}) {
            all_.push_back([=](S& s) { s.*member = odd; });
        }
        return pointer(member);
    }
    /// A struct within.
    template <class M>
    Bends& inner(M S::*member, const Bends<M>& bends) {
        for (const auto& bend : bends.all())
            all_.push_back([=](S& s) { bend(s.*member); });
        return *this;
    }
    [[nodiscard]] const std::vector<std::function<void(S&)>>& all() const& { return all_; }
    void all() const&& = delete;

  private:
    std::vector<std::function<void(S&)>> all_;
};

inline Bends<samelight_rows> bends_of(const samelight_rows*) {
    return Bends<samelight_rows>()
        .pointer(&samelight_rows::values)
        .count(&samelight_rows::count)
        .count(&samelight_rows::stride);
}
inline Bends<samelight_spectra> bends_of(const samelight_spectra*) {
    using S = samelight_spectra;
    return Bends<S>()
        .pointer(&S::wavelengths_nm)
        .count(&S::wavelength_count)
        .pointer(&S::values)
        .count(&S::count)
        .count(&S::spectrum_stride)
        .count(&S::value_stride);
}
inline Bends<samelight_sampling> bends_of(const samelight_sampling*) {
    using S = samelight_sampling;
    return Bends<S>().number(&S::first_nm).number(&S::step_nm).count(&S::count);
}
inline Bends<samelight_observer_table> bends_of(const samelight_observer_table*) {
    using S = samelight_observer_table;
    Bends<samelight_sampling> grid;
    // A larger count than there are rows for can't be told from a right one.
    grid.number(&samelight_sampling::first_nm).number(&samelight_sampling::step_nm);
    return Bends<S>()
        .size()
        .text(&S::id)
        .text(&S::title)
        .inner(&S::grid, grid)
        .pointer(&S::rows)
        .count(&S::row_stride);
}
inline Bends<samelight_panel_spectra> bends_of(const samelight_panel_spectra*) {
    using S = samelight_panel_spectra;
    return Bends<S>()
        .size()
        .text(&S::name)
        .pointer(&S::wavelengths_nm)
        .count(&S::wavelength_count)
        .pointer(&S::red)
        .pointer(&S::green)
        .pointer(&S::blue)
        .pointer(&S::white)
        .count(&S::stride)
        .whole(&S::common_scale);
}
inline Bends<samelight_population_options> bends_of(const samelight_population_options*) {
    using S = samelight_population_options;
    return Bends<S>()
        .size()
        .count(&S::count)
        .number(&S::youngest_years)
        .number(&S::oldest_years)
        .number(&S::field_deg);
}
inline Bends<samelight_population_spread> bends_of(const samelight_population_spread*) {
    return Bends<samelight_population_spread>().size();
}
inline Bends<samelight_viewer> bends_of(const samelight_viewer*) {
    return Bends<samelight_viewer>()
        .number(&samelight_viewer::age_years)
        .number(&samelight_viewer::field_deg);
}
inline Bends<samelight_white_options> bends_of(const samelight_white_options*) {
    using S = samelight_white_options;
    return Bends<S>()
        .size()
        .pointer(&S::observers)
        .count(&S::observer_count)
        .pointer(&S::viewers)
        .count(&S::viewer_count)
        .number(&S::reading_noise_xy)
        .number(&S::wavelength_shift_nm)
        .number(&S::bandwidth_nm)
        .number(&S::stray_light)
        .number(&S::noise)
        .number(&S::step_nm)
        .number(&S::additivity_floor_xy);
}
inline Bends<samelight_white_part> bends_of(const samelight_white_part*) {
    return Bends<samelight_white_part>().size();
}
inline Bends<samelight_metamerism_options> bends_of(const samelight_metamerism_options*) {
    return Bends<samelight_metamerism_options>().size();
}
inline Bends<samelight_metamerism_figures> bends_of(const samelight_metamerism_figures*) {
    return Bends<samelight_metamerism_figures>().size();
}
inline Bends<samelight_paired_readings> bends_of(const samelight_paired_readings*) {
    using S = samelight_paired_readings;
    const auto rows = bends_of(static_cast<const samelight_rows*>(nullptr));
    return Bends<S>()
        .size()
        .text(&S::name)
        .count(&S::count)
        .pointer(&S::patches)
        .inner(&S::reference_xyz, rows)
        .inner(&S::meter_xyz, rows);
}
inline Bends<samelight_fit_options> bends_of(const samelight_fit_options*) {
    using S = samelight_fit_options;
    return Bends<S>()
        .size()
        .text(&S::method)
        .number(&S::wanted_half_width)
        .number(&S::noise_xy)
        .count(&S::resamples);
}
inline Bends<samelight_meter> bends_of(const samelight_meter*) {
    using S = samelight_meter;
    return Bends<S>().size().text(&S::name).inner(
        &S::sensitivities, bends_of(static_cast<const samelight_spectra*>(nullptr)));
}
inline Bends<samelight_correction_facts> bends_of(const samelight_correction_facts*) {
    return Bends<samelight_correction_facts>().size();
}
inline Bends<samelight_choice_request> bends_of(const samelight_choice_request*) {
    using S = samelight_choice_request;
    return Bends<S>()
        .size()
        .pointer(&S::corrections)
        .pointer(&S::names)
        .count(&S::correction_count)
        .pointer(&S::panel)
        .number(&S::mismatch_percent)
        .number(&S::limit_uv);
}
inline Bends<samelight_choice> bends_of(const samelight_choice*) {
    return Bends<samelight_choice>().size();
}
inline Bends<samelight_patch_readings> bends_of(const samelight_patch_readings*) {
    using S = samelight_patch_readings;
    const auto rows = bends_of(static_cast<const samelight_rows*>(nullptr));
    return Bends<S>()
        .size()
        .text(&S::name)
        .count(&S::count)
        .pointer(&S::patches)
        .inner(&S::signals, rows)
        .inner(&S::xyz, rows);
}
inline Bends<samelight_check_options> bends_of(const samelight_check_options*) {
    using S = samelight_check_options;
    return Bends<S>()
        .size()
        .number(&S::white_x)
        .number(&S::white_y)
        .text(&S::encoding)
        .text(&S::curve)
        .number(&S::white_cd_m2)
        .number(&S::black_cd_m2)
        .number(&S::gate_de00)
        .whole(&S::bits)
        .whole(&S::limited_range);
}
inline Bends<samelight_check_summary> bends_of(const samelight_check_summary*) {
    return Bends<samelight_check_summary>().size();
}
inline Bends<samelight_check_cause> bends_of(const samelight_check_cause*) {
    return Bends<samelight_check_cause>().size();
}

/// Whether a type has members to bend.
template <class T, class = void>
inline constexpr bool has_bends = false;
template <class T>
inline constexpr bool
    has_bends<T, std::void_t<decltype(bends_of(static_cast<const T*>(nullptr)))>> = true;

}  // namespace c_interface
