// Computes colour: from a measured spectrum to X, Y, Z for two observers, chromaticity, colour temperature, a difference and a signal.
// Usage: compute_colour FOLDER     (data/demo: the files of the demonstration)
#include <cstdio>
#include <exception>
#include <string>

#include <samelight/colour.hpp>
#include <samelight/io/spectral_csv.hpp>

namespace {

template <class O>
void say(const char* observer, const samelight::Spectrum& light) {
    const auto xy = samelight::chromaticity(samelight::tristimulus<O>(light));
    std::printf("%-22s x %.4f  y %.4f\n", observer, xy.x(), xy.y());
}

void compute(const std::string& folder) {
    using namespace samelight;
    const io::SpectralFile file = io::read_spectral_csv(folder + "/grading-monitor.csv");
    const Spectrum& white = file.find("white")->light;
    say<Cie1931_2deg>("CIE 1931, 2 degrees", white);
    say<Cie2015_10deg>("CIE 2015, 10 degrees", white);
    // A chromaticity of CIE 1931 and one of CIE 2015 don't subtract: that wouldn't compile.

    const auto read = tristimulus<Cie1931_2deg>(white).scaled_to(100.0);
    const auto d65 = tristimulus<Cie1931_2deg>(d_illuminant(6500)).scaled_to(100.0);
    if (const auto temperature = colour_temperature(chromaticity(read))) {
        std::printf("%.0f K, Duv %+.4f\n", temperature->cct_k, temperature->duv);
    }
    std::printf("from D65: %.4f in u', v', CIEDE2000 %.2f\n",
                uv_distance(chromaticity(read), chromaticity(d65)),
                delta_e_2000(lab(read, d65), lab(d65, d65)));
    const Luminance hundred(100.0);
    std::printf("100 cd/m2 is %.4f of a PQ signal\n", Pq::signal(hundred).value());
}

}  // namespace

int main(int count, char** words) {
    try {
        compute(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
