#include "report/metamerism/page/metamerism_words.hpp"

#include <cstddef>
#include <string>

#include "report/words/short_name.hpp"
#include "samelight/assess/metamerism.hpp"
#include "samelight/metamerism/comparison.hpp"
#include "samelight/numeric/text.hpp"
#include "samelight/report/metamerism_answer.hpp"

namespace samelight::report {

std::string de_said(double value) { return to_text(value, 1); }

std::string names_of_pair(const MetamerismAnswer& answer, std::size_t pair, std::size_t room) {
    const MatrixPair& p = answer.matrix.pairs[pair];
    return short_name(answer.panels[p.first].name, room) + " and " +
           short_name(answer.panels[p.second].name, room);
}

std::string basis_said(const MetamerismAnswer& answer, std::size_t pair) {
    const MatrixPair& p = answer.matrix.pairs[pair];
    switch (answer.pairs[pair].basis) {
        case assess::PairBasis::measured:
            return "as measured";
        case assess::PairBasis::mixed:
            return "one measured, one a generic model";
        case assess::PairBasis::generic:
            return answer.panels[p.first].title == answer.panels[p.second].title
                       ? "one generic model twice; two units of it differ"
                       : "generic models, not these units";
    }
    return "";
}

}  // namespace samelight::report
