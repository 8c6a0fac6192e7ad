// Reads answers back that were kept as files: whites, what each patch must read, and the people whom they were worked out for.
// Usage: read_answers FOLDER     (data/demo: the files of the demonstration)
#include <cstdio>
#include <exception>
#include <string>

#include <samelight/io/answers/patch_targets.hpp>
#include <samelight/io/answers/population_file.hpp>
#include <samelight/io/answers/white_answer.hpp>
#include <samelight/observers.hpp>
#include <samelight/report/check/targets_answer.hpp>
#include <samelight/report/white_answer.hpp>

namespace {

void read(const std::string& folder) {
    using namespace samelight;
    // What `samelight white ... --json` prints, and what a program keeps of it a year later.
    report::WhiteRequest asked;
    asked.panels = {folder + "/client-set.csv"};
    asked.reference = "crt@0.3127,0.3290";
    const std::string file = report::white_json(report::answer_white(asked));
    const io::KeptWhites whites = io::parse_white_answer(file, "whites.json");
    const io::KeptDisplay& set = whites.displays.front();
    std::printf("white of the set: x %.4f  y %.4f, %s\n", set.targets[0].xy.x(),
                set.targets[0].xy.y(), set.verdict->verdict_code.c_str());
    std::printf("people want it on average at x %.4f  y %.4f, %zu of them asked\n",
                set.people->region.mean.x(), set.people->region.mean.y(),
                set.people->region.people);

    // Targets of patches about that white, likewise.
    report::TargetsRequest targets;
    targets.intent.white = "0.3091,0.3199";
    const io::KeptPatchTargets patches = io::parse_patch_targets(
        report::targets_json(report::answer_targets(targets)), "targets.json");
    std::printf("%zu patches, white at %.1f cd/m2\n", patches.targets.size(), patches.white[1]);

    // People as a file: whoever reads it has the same ones, to the bit.
    const PopulationParameters half{.ages = Ages::range(40, 70), .count = 128};
    const Population people(io::parse_population(io::population_text(half), "people.json"));
    std::printf("%s\n", people.describe().c_str());
}

}  // namespace

int main(int count, char** words) {
    try {
        read(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
