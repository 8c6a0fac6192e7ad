// Corrects a filter colorimeter: makes a correction from paired readings, judges it, keeps it, reads it back and corrects a reading.
// Usage: correct_meter FOLDER     (data/demo: the files of the demonstration)
#include <array>
#include <cstdio>
#include <exception>
#include <string>

#include <samelight/io/correction_file.hpp>
#include <samelight/io/readings_csv.hpp>
#include <samelight/meter.hpp>

namespace {

void correct(const std::string& folder) {
    using namespace samelight;
    const io::ReadingsFile file = io::read_readings_csv(folder + "/client-set-readings.csv");
    assess::MeterFitRequest request{{"client's set", file.readings()}};
    request.display.warnings = file.warnings;

    const assess::MeterFitAnswer answer = assess::answer_meter_fit(request);
    std::printf("%s (%s), from %zu pairs of %zu patches\n", code_of(answer.judgement.verdict),
                code_of(answer.judgement.reason), answer.pair_count, answer.patch_count);

    // What write_correction() would keep, and what next year's program reads. It reads back to the bit.
    const std::string kept = io::correction_text(answer.stored);
    const Correction correction = io::parse_correction(kept, "kept").correction;

    const std::array<double, 3> meter = answer.white->meter;
    const Corrected white = corrected_reading(correction, meter);
    const auto& reference = answer.white->reference;
    const auto say = [](const char* who, double X, double Y, double Z) {
        const double sum = X + Y + Z;
        std::printf("white, %-10s x %.4f  y %.4f  Y %.1f cd/m2\n", who, X / sum, Y / sum, Y);
    };
    say("meter", meter[0], meter[1], meter[2]);
    say("corrected", white.xyz.X(), white.xyz.Y(), white.xyz.Z());
    say("reference", reference[0], reference[1], reference[2]);
}

}  // namespace

int main(int count, char** words) {
    try {
        correct(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
