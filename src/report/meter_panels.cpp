#include "meter_panels.hpp"

#include <vector>

#include "samelight/display/generic_panel.hpp"
#include "samelight/display/match.hpp"

namespace samelight::report {
namespace {

std::vector<double> as_vector(const Eigen::Ref<const Eigen::VectorXd>& v) {
    return {v.begin(), v.end()};
}

}  // namespace

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
        return Spectrum(panel.sampling(),
                        as_vector(set.share[at] * set.content[at] * panel.emitters().col(k)));
    };
    samelight::PanelSpectra spectra{column(0), column(1), column(2)};
    if (panel.white_is_base()) {
        const Eigen::VectorXd light =
            Eigen::Map<const Eigen::VectorXd>(set.light.data(),
                                              static_cast<Eigen::Index>(set.light.size())) -
            panel.black();
        spectra.white = Spectrum(panel.sampling(), as_vector(light));
    }
    return {panel.name(), spectra, panel.sampling()};
}

io::PanelSpectra stored_spectra(const Panel& panel) {
    io::PanelSpectra result;
    for (int i = 0; i < panel.sampling().count(); ++i) {
        result.wavelengths_nm.push_back(panel.sampling().wavelength_nm(i));
    }
    result.red = as_vector(panel.emitters().col(0));
    result.green = as_vector(panel.emitters().col(1));
    result.blue = as_vector(panel.emitters().col(2));
    result.white = as_vector(panel.white());
    return result;
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
