// Built for this very processor and linked with a samelight::io that was not. The two lay out and free
// matrices differently, so nothing that owns one may pass between them, not even by way of an inline
// function that both contain: this program would crash or get other numbers.
#include <cmath>
#include <iostream>
#include <string>
#include <vector>

#include "samelight/colour/chromaticity.hpp"
#include "samelight/io/named_lights.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/observer/standard.hpp"
#include "samelight/observer/tristimulus.hpp"
#include "samelight/spectrum/illuminants.hpp"
#include "samelight/spectrum/rebinning.hpp"

namespace {

using namespace samelight;

bool near(const Chromaticity<Cie1931_2deg>& found, double x, double y) {
    return std::abs(found.x() - x) < 5e-6 && std::abs(found.y() - y) < 5e-6;
}

Chromaticity<Cie1931_2deg> white_of(const SampledLight& light) {
    return chromaticity(tristimulus<Cie1931_2deg>(light));
}

// Spectra there and back: written, read and weighed by different halves. CIE 15:2004, Table T.3.
bool spectra_pass() {
    const std::vector<io::LightColumn> lights{{"white", d_illuminant(6500)}};
    const io::SpectralFile read = io::parse_spectral_csv(io::spectral_csv_text({}, lights), "d65");
    const auto white = white_of(rebin(read.lights.at(0).light, {380, 5, 81}));
    return near(white, 0.31272, 0.32903);
}

// A reference made by the compiled half, and its panel's own functions called by this one.
bool references_and_panels_pass() {
    const io::NamedReference d65 = io::open_reference("D65", {380, 5, 81});
    const io::NamedReference crt = io::open_reference("crt@0.3127,0.3290");
    const io::NamedPanel panel = io::open_panel("crt");
    const Eigen::VectorXd full = panel.panel.white() + panel.panel.black();
    const SampledLight white{panel.panel.sampling(), {full.begin(), full.end()}, 0.0};
    // The reference again, by this half's own code: the same white.
    const auto again = white_of(display_reference(panel.panel).light);
    return near(white_of(d65.reference.light), 0.31272, 0.32903) &&
           near(white_of(crt.reference.light), 0.3127, 0.3290) &&
           near(again, white_of(white).x(), white_of(white).y());
}

bool errors_pass() {
    try {
        io::open_reference("no such display");
    } catch (const Error&) {
        return true;
    }
    return false;
}

}  // namespace

int main() {
    std::cout << "samelight " << version << '\n';
    return spectra_pass() && references_and_panels_pass() && errors_pass() ? 0 : 1;
}
