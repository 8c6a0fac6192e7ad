// Any numbers as spectra, observers, displays and colours through the C interface: refused in one line, or finite numbers.
#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "doors/c_handles.hpp"

namespace {

using fuzz::Drawn;

void read_lights(Drawn& drawn) {
    const fuzz::Observer observer = fuzz::drawn_observer(drawn);
    if (!observer) return;
    const samelight_sampling grid{drawn.number(300.0, 500.0), drawn.number(0.5, 40.0),
                                  1 + drawn.count(60)};
    const samelight_sampling* own = drawn.one_in(2) ? &grid : nullptr;
    samelight_error error{};
    std::vector<double> rows(3 * (own != nullptr ? own->count : 401));
    if (fuzz::answered(
            samelight_observer_sensitivities(observer.get(), own, rows.data(), 0, &error), error,
            "sensitivities")) {
        fuzz::demand_finite(rows, "sensitivities");
    }
    const fuzz::DrawnSpectra lights = fuzz::drawn_spectra(drawn, 2);
    std::array<double, 6> xyz{};
    if (!fuzz::answered(
            samelight_xyz_from_spectra(observer.get(), &lights.spectra, own, xyz.data(), 0, &error),
            error, "xyz"))
        return;
    fuzz::demand_finite(xyz, "xyz");
    const samelight_rows read{xyz.data(), 2, 0};
    std::array<double, 4> xy{};
    if (fuzz::answered(samelight_xy_from_xyz(&read, xy.data(), 0, &error), error, "xy"))
        fuzz::demand_finite(xy, "xy");
    if (fuzz::answered(samelight_uv_from_xyz(&read, xy.data(), 0, &error), error, "uv"))
        fuzz::demand_finite(xy, "uv");
}

void tell_colours(Drawn& drawn) {
    const std::vector<double> xyz = drawn.numbers(6, -5.0, 120.0);
    const std::vector<double> white = drawn.numbers(3, 50.0, 120.0);
    const samelight_rows rows{xyz.data(), 2, 0};
    samelight_error error{};
    std::array<double, 6> lab{};
    if (!fuzz::answered(samelight_lab_from_xyz(&rows, white.data(), lab.data(), 0, &error), error,
                        "lab"))
        return;
    fuzz::demand_finite(lab, "lab");
    const samelight_rows first{lab.data(), 1, 0};
    const samelight_rows second{lab.data() + 3, 1, 0};
    double difference[2] = {};
    for (const int way : {0, 1}) {
        if (fuzz::answered(
                samelight_de2000_from_lab(way == 0 ? &first : &second, way == 0 ? &second : &first,
                                          &difference[way], 0, &error),
                error, "CIEDE2000")) {
            fuzz::demand(difference[way] >= 0.0 && std::isfinite(difference[way]),
                         "a difference that is one");
        }
    }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    Drawn drawn(data, size);
    if (drawn.one_in(2)) tell_colours(drawn);
    read_lights(drawn);
    const fuzz::Panel panel = fuzz::drawn_panel(drawn);
    const fuzz::Reference reference = fuzz::drawn_reference(drawn);
    samelight_error error{};
    std::array<double, 2> xy{};
    if (reference && fuzz::answered(samelight_reference_xy(reference.get(), xy.data(), &error),
                                    error, "xy of a reference")) {
        fuzz::demand_finite(xy, "xy of a reference");
    }
    return 0;
}
