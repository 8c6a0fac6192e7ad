// Chooses the white of one display: what the instrument must read on it so that its white looks like a tube monitor's, how sure that is, and
// whether to move the white at all.
// Usage: choose_white FOLDER     (data/demo: the files of the demonstration)
#include <cstdio>
#include <exception>
#include <string>

#include <samelight/io/named_lights.hpp>
#include <samelight/report/advice_words.hpp>
#include <samelight/report/warning_words.hpp>
#include <samelight/white.hpp>

namespace {

void choose(const std::string& folder) {
    using namespace samelight;
    // Red, green, blue, white and black, as an instrument exported them; what was doubtful on the way goes along.
    const io::NamedPanel read = io::open_panel(folder + "/client-set.csv");
    const assess::WhitePanel set{
        read.panel, read.model, {}, {read.understood, read.warnings, read.step_nm, read.clipped}};

    assess::WhitePanel tube = assess::generic_display(generic_model("crt"));
    tube.white = {WhiteSetTo{{0.3127, 0.3290}}};

    const assess::WhiteAnswer answer =
        assess::answer_white({assess::display_as_reference(tube), {set}});
    const assess::PanelPart& part = answer.panels.front();
    const Target& target = part.dialled();
    std::printf("dial in    x %.4f  y %.4f\n", target.xy.x(), target.xy.y());
    if (part.budget) {
        std::printf("how sure   +-%.4f  +-%.4f, 19 times in 20\n", part.budget->half_width_x(),
                    part.budget->half_width_y());
    }
    if (target.luminance_ratio) {
        std::printf("light      %.0f %% of the native white\n", 100.0 * *target.luminance_ratio);
    }
    if (part.advice) {
        std::printf("verdict    %s (%s)\n", code_of(part.advice->verdict),
                    code_of(part.advice->reason));
    }
    for (const Warning& warning : part.targets.warnings) {
        std::printf("doubtful   %s\n", report::sentence(warning).c_str());
    }
}

}  // namespace

int main(int count, char** words) {
    try {
        choose(count > 1 ? words[1] : "data/demo");
    } catch (const std::exception& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 1;
    }
}
