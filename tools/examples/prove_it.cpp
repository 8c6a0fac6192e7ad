// Proves the work: judges a visit's readings against what the display is meant to show about the chosen white, and names what is wrong.
// Usage: prove_it FOLDER     (data/demo: the files of the demonstration)
#include <algorithm>
#include <cstdio>
#include <exception>
#include <string>
#include <utility>
#include <vector>

#include <samelight/check.hpp>
#include <samelight/io/patch_readings_csv.hpp>

namespace {

samelight::assess::CheckedReadings visit(const std::string& file) {
    using namespace samelight;
    std::vector<PatchReading> readings = io::read_patch_readings_csv(file).rows;
    // The display as bright as it was read, its power curve of 2.4, Rec. 709's primaries about the white that was chosen.
    double peak = 0.0;
    for (const PatchReading& reading : readings) {
        peak = std::max(peak, reading.xyz[1]);
    }
    const IntendedDisplay plain(RgbEncoding::of<Bt709>(),
                                SignalCurve({CurveKind::power, peak, 0.0, 2.4}));
    return {file, std::move(readings), plain.with_white(Chromaticity<Cie1931_2deg>(0.3091, 0.3199)),
            plain};
}

void say(const char* when, const samelight::assess::CheckedVisit& checked) {
    std::printf("%s: largest DE00 %.1f, on average %.1f\n", when, checked.chosen.gate.largest,
                checked.chosen.groups.back().de00.mean);
    for (const samelight::Fault& fault : checked.found.faults) {
        std::printf("  %s\n", code_of(fault.kind));
    }
}

void prove(const std::string& folder) {
    using namespace samelight;
    const std::string proof = folder + "/proof/client-set-proof";
    assess::CheckRequest request{.now = visit(proof + ".csv"),
                                 .before = visit(proof + "-before.csv"),
                                 .white_chosen = true,
                                 .gate = ProofGate{.gate = 3.0}};
    const assess::CheckAnswer answer = assess::answer_check(request);
    std::printf("%s (%s), gate %.1f\n", code_of(answer.verdict), code_of(answer.reason),
                answer.gate);
    say("now", answer.now);
    say("before", *answer.before);
}

}  // namespace

int main(int count, char** words) {
    try {
        prove(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
