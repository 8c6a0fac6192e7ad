// Says whose white it is: two people of different ages watch one display, so each has a white of their own, and one of them sets it by eye.
// Usage: whose_white FOLDER     (data/demo: the files of the demonstration)
#include <cstddef>
#include <cstdio>
#include <exception>
#include <string>

#include <samelight/io/named_lights.hpp>
#include <samelight/observers.hpp>
#include <samelight/white.hpp>

namespace {

void say(const samelight::assess::PanelPart& part, const samelight::assess::WhiteAnswer& answer) {
    const samelight::ViewerGroup& group = part.viewer_group->people;
    for (std::size_t i = 0; i < group.targets.size(); ++i) {
        std::printf("  viewer %s: x %.4f  y %.4f%s\n", answer.viewers[i].name.c_str(),
                    group.targets[i].xy.x(), group.targets[i].xy.y(),
                    answer.viewers[i].matched ? ", by eye" : "");
    }
    std::printf("  together: x %.4f  y %.4f; %.0f in 100 that their whites lie %.3f apart\n",
                part.dialled().xy.x(), part.dialled().xy.y(), 100.0 * group.disagreement[0][1],
                group.threshold_uv);
}

void find(const std::string& folder) {
    using namespace samelight;
    assess::WhitePanel tube = assess::generic_display(generic_model("crt"));
    tube.white = {WhiteSetTo{{0.3127, 0.3290}}};
    assess::WhiteRequest request{assess::display_as_reference(tube),
                                 {{io::open_panel(folder + "/client-set.csv").panel}}};
    // Years, and how many degrees of view the white fills.
    request.viewers = {{28.0, 2.0}, {64.0, 4.0}};

    const assess::WhiteAnswer by_age = assess::answer_white(request);
    std::printf("by age\n");
    say(by_age.panels.front(), by_age);

    // What viewer B set beside the reference until the two looked alike outweighs the formula.
    request.by_eye = {{1, {0.3060, 0.3185}}};
    const assess::WhiteAnswer by_eye = assess::answer_white(request);
    std::printf("after a match by eye\n");
    say(by_eye.panels.front(), by_eye);
}

}  // namespace

int main(int count, char** words) {
    try {
        find(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
