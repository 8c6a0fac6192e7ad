// Says how far people will disagree about two displays: what they see between the whites, as an instrument sets them, with white targets, and
// at best.
// Usage: how_people_differ FOLDER     (data/demo: the files of the demonstration)
#include <cstddef>
#include <cstdio>
#include <exception>
#include <string>

#include <samelight/io/named_lights.hpp>
#include <samelight/metamerism.hpp>

namespace {

void compare(const std::string& folder) {
    using namespace samelight;
    assess::MetamerismRequest request{illuminant_reference("D65"), {}};
    for (const char* name : {"grading-monitor", "client-set"}) {
        const io::NamedPanel read = io::open_panel(folder + "/" + name + ".csv");
        request.panels.push_back({name, read.panel, read.model});
    }
    // Evenly from 20 to 70 years, seeing a field of 2 degrees; drawn the same way every time.
    request.population =
        Population(PopulationParameters{.ages = Ages::range(20, 70), .count = 256});

    const assess::MetamerismAnswer answer = assess::answer_metamerism(request);
    const MatrixPair& pair = answer.matrix.pairs.front();
    std::printf("%s beside %s, seen by %zu people; CIEDE2000 between the whites\n",
                answer.panels[pair.first].name.c_str(), answer.panels[pair.second].name.c_str(),
                answer.matrix.viewers);
    for (std::size_t i = 0; i < answer.matrix.settings.size(); ++i) {
        const ViewerSpread& white = pair.figures[i].white_de00;
        std::printf("%-14s mean %.1f, two in three below %.1f, 95 %% below %.1f\n",
                    code_of(answer.matrix.settings[i]), white.mean, white.two_in_three, white.p95);
    }
    if (pair.least_white_de00) {
        std::printf("%-14s mean %.1f: the rest is how people differ\n", "at best",
                    *pair.least_white_de00);
    }
}

}  // namespace

int main(int count, char** words) {
    try {
        compare(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
