#include "meter_panels.hpp"

#include <array>
#include <cmath>
#include <vector>

#include "samelight/colour/adaptation.hpp"
#include "samelight/colour/chromaticity.hpp"
#include "samelight/display/generic_panel.hpp"
#include "samelight/display/match.hpp"
#include "samelight/display/own_samples.hpp"
#include "samelight/display/panel.hpp"
#include "samelight/display/panel_lights.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/meter/readings.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/observer/by_name.hpp"
#include "samelight/observer/observer.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/spectrum/sampling.hpp"
#include "samelight/spectrum/spectrum.hpp"

namespace samelight::report {
Panel panel_as_shown(const io::NamedPanel& named) {
    const Panel& panel = named.panel;
    if (!named.set_to && panel.white_known()) {
        return panel;
    }
    const Chromaticity<Cie1931_2deg> white =
        named.set_to
            ? *named.set_to
            : Chromaticity<Cie1931_2deg>(generic_native_white_xy[0], generic_native_white_xy[1]);
    const Match set = set_white(panel, white);
    if (!set.in_gamut()) {
        throw Error(ErrorKind::domain, panel.name(),
                    "a white of x " + to_text(white.x(), 4) + ", y " + to_text(white.y(), 4) +
                        " outside that display's gamut",
                    "an x, y inside the triangle of its primaries");
    }
    const auto column = [&](Eigen::Index k) {
        const auto at = static_cast<std::size_t>(k);
        return own_samples(panel, [&](const PanelLights& lights) -> Eigen::VectorXd {
            return set.share[at] * set.content[at] * lights.emitters().col(k);
        });
    };
    samelight::PanelSpectra spectra{column(0), column(1), column(2)};
    if (panel.white_is_base()) {
        spectra.white = own_samples(panel, [&](const PanelLights& lights) -> Eigen::VectorXd {
            return lights.emitters() * Eigen::Vector3d(set.added[0], set.added[1], set.added[2]) +
                   set.white_emitter * lights.white();
        });
    }
    return {panel.name(), spectra, panel.sampling()};
}

io::PanelSpectra stored_spectra(const Panel& panel) {
    io::PanelSpectra result;
    const auto take = [&](std::vector<double>& values, auto&& of) {
        const Spectrum light = own_samples(panel, of);
        values.assign(light.values().begin(), light.values().end());
        result.wavelengths_nm.assign(light.wavelengths_nm().begin(), light.wavelengths_nm().end());
    };
    const auto colour = [](Eigen::Index k) {
        return
            [k](const PanelLights& lights) -> Eigen::VectorXd { return lights.emitters().col(k); };
    };
    take(result.red, colour(0));
    take(result.green, colour(1));
    take(result.blue, colour(2));
    take(result.white, [](const PanelLights& lights) -> Eigen::VectorXd { return lights.white(); });
    return result;
}

std::optional<Warning> doubt_about_panel(const std::string& name, const Panel& panel,
                                         const ReadingSet& readings) {
    // A modelling choice: units of a type and instruments differ by less, types by more.
    constexpr double too_far = 0.02;
    const Sensitivities t = observer_named(readings.observer()).on(panel.sampling());
    const PatchNames& names = readings.names();
    std::string what;
    double farthest = too_far;
    const auto compare = [&](const std::string& patch, const Eigen::VectorXd& light) {
        const auto found = readings.find(patch);
        if (!found) {
            return;
        }
        const Eigen::Vector3d xyz = t.rows() * (light + panel.black());
        const std::array<double, 2> by_spectra = {xyz[0] / xyz.sum(), xyz[1] / xyz.sum()};
        const std::array<double, 3>& read = readings.patches()[*found].reference;
        const double distance = std::hypot(by_spectra[0] - read[0], by_spectra[1] - read[1]);
        if (distance > farthest) {
            farthest = distance;
            what = patch + " reads x " + to_text(by_spectra[0], 4) + ", y " +
                   to_text(by_spectra[1], 4) + " by them, and x " + to_text(read[0], 4) + ", y " +
                   to_text(read[1], 4) + " by the reference";
        }
    };
    compare(names.red, panel.emitters().col(0));
    compare(names.green, panel.emitters().col(1));
    compare(names.blue, panel.emitters().col(2));
    if (panel.white_known()) {
        compare(names.white, panel.white());
    }
    if (what.empty()) {
        return {};
    }
    return Warning{other_panel_code, "The spectra in " + name +
                                         " aren't of the display that was read: " + what +
                                         ". A correction kept with them can't be judged by them."};
}

Panel panel_from_stored(const std::string& name, const io::PanelSpectra& spectra,
                        const Sampling& sampling) {
    const auto column = [&](const std::vector<double>& values) {
        return Spectrum(spectra.wavelengths_nm, values);
    };
    samelight::PanelSpectra result{column(spectra.red), column(spectra.green),
                                   column(spectra.blue)};
    if (!spectra.white.empty()) {
        result.white = column(spectra.white);
    }
    return {name, result, sampling};
}

void say_how_read(const std::string& file, const std::vector<std::string>& sentences,
                  std::vector<std::string>& understood) {
    for (const std::string& sentence : sentences) {
        understood.push_back(&sentence == &sentences.front() ? file + ": " + sentence : sentence);
    }
}

}  // namespace samelight::report
