#include <string>

#include <nlohmann/json.hpp>

#include "report/words/error_parts.hpp"
#include "report/words/json_parts.hpp"
#include "samelight/numeric/version.hpp"
#include "samelight/report/meter_table_answer.hpp"

namespace samelight::report {

std::string meter_table_json(const MeterTableAnswer& answer) {
    using Json = nlohmann::ordered_json;
    Json json = {{"schema", "samelight/meter-table/1"},
                 {"version", version},
                 {"meter", answer.meter},
                 {"believable", answer.believable},
                 {"limit_uv", answer.limit_uv},
                 {"corrections_made_on", answer.panels},
                 {"pairs_worse_than_none", answer.worse_than_none}};
    json["panels"] = Json::array();
    for (std::size_t i = 0; i < answer.panels.size(); ++i) {
        Json with = Json::array();
        for (const auto& error : answer.with[i]) {
            with.push_back(error ? expected_error_json(*error) : Json(nullptr));
        }
        json["panels"].push_back({{"name", answer.panels[i]},
                                  {"without_correction", expected_error_json(answer.none[i])},
                                  {"with", with}});
    }
    json["understood"] = answer.understood;
    json["warnings"] = warnings_json(answer.warnings);
    json["errors"] = errors_json(answer.errors);
    return json_text(json);
}

}  // namespace samelight::report
