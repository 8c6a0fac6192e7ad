// An answer about whites, read back.
#include "samelight/io/answers/white_answer.hpp"
#include "samelight/io/text_for_people.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "io/answers/kept_json.hpp"
#include "io/files/file_bytes.hpp"

namespace samelight::io {
namespace {

using detail::Node;

KeptTarget kept_target(const Node& node) {
    KeptTarget target{
        detail::text_at(node, "observer"),
        detail::xy_in(node),
        {detail::number_at(node, "delta_x"), detail::number_at(node, "delta_y")},
    };
    if (const auto drive = node.find("drive")) {
        std::vector<double> values;
        for (const Node& value : drive->items("numbers")) {
            values.push_back(value.number());
        }
        target.drive = std::move(values);
    }
    if (const auto ratio = node.find("luminance_ratio")) {
        target.luminance_ratio = ratio->number();
    }
    target.in_gamut = node.require("in_gamut", "true or false").yes();
    return target;
}

CovarianceMatrix<2> kept_covariance(const Node& node, const char* key) {
    return {detail::numbers_at<4>(node, key)};
}

Ellipse kept_ellipse(const Node& node) {
    return {detail::numbers_at<2>(node, "centre"), detail::number_at(node, "semi_major"),
            detail::number_at(node, "semi_minor"), detail::number_at(node, "angle_deg"),
            detail::number_at(node, "coverage")};
}

KeptPeople kept_people(const Node& node) {
    std::optional<std::size_t> people_for_mean;
    if (node.find("people_for_mean")) {
        people_for_mean = detail::count_at(node, "people_for_mean");
    }
    const TargetRegion region{detail::count_at(node, "people"),
                              detail::xy_in(node.require("mean", "x and y")),
                              detail::xy_in(node.require("median", "x and y")),
                              kept_covariance(node, "covariance_xy"),
                              kept_covariance(node, "covariance_uv"),
                              kept_ellipse(node.require("ellipse_xy", "an ellipse")),
                              kept_ellipse(node.require("ellipse_uv", "an ellipse")),
                              people_for_mean};
    return {detail::text_at(node, "description"),
            detail::number_at(node, "field_deg"),
            region,
            detail::count_at(node, "outside_gamut"),
            detail::count_at(node, "without_target"),
            detail::number_at(node, "pair_threshold_uv"),
            detail::number_at(node, "pair_share")};
}

KeptDisplay kept_display(const Node& node) {
    KeptDisplay display{detail::text_at(node, "name"), detail::text_at(node, "kind")};
    if (const auto native = node.find("native_white"); native && native->find("x")) {
        display.native_white = detail::xy_in(*native);
    }
    for (const Node& target : node.require("targets", "an array").items("an array of targets")) {
        display.targets.push_back(kept_target(target));
    }
    if (display.targets.empty()) {
        node.require("targets", "an array").refuse_value("a target at least");
    }
    if (const auto together = node.find("household_target")) {
        display.together = kept_target(*together);
    }
    if (const auto budget = node.find("budget")) {
        display.uncertainty = {kept_covariance(*budget, "covariance_xy"),
                               {detail::number_at(*budget, "half_width_x"),
                                detail::number_at(*budget, "half_width_y")},
                               detail::text_at(*budget, "dominant")};
    }
    if (const auto people = node.find("population")) {
        display.people = kept_people(*people);
    }
    if (const auto advice = node.find("advice")) {
        display.verdict = {detail::text_at(*advice, "verdict"),
                           detail::text_at(*advice, "reason_code"),
                           detail::xy_in(advice->require("white", "x and y"))};
    }
    return display;
}

}  // namespace

KeptWhites parse_white_answer(std::string_view bytes, const std::string& source) {
    const std::string file = harmless(source);
    const auto json =
        detail::answer_json(bytes, file, "samelight/white/1", "the JSON of an answer about whites");
    const Node answer(json, "", file, ErrorKind::input);
    const Node reference = answer.require("reference", "an object");
    KeptWhites kept{source,
                    detail::text_at(answer, "version"),
                    detail::text_at(reference, "name"),
                    detail::xy_in(reference),
                    {}};
    for (const Node& panel : answer.require("panels", "an array").items("an array of displays")) {
        kept.displays.push_back(kept_display(panel));
    }
    return kept;
}

KeptWhites read_white_answer(const std::filesystem::path& file) {
    return parse_white_answer(detail::file_bytes(file, detail::largest_answer_bytes, "an answer"),
                              detail::source_name(file));
}

}  // namespace samelight::io
