#include "samelight/io/column_doubts.hpp"
#include "samelight/io/spectral_csv.hpp"
#include "samelight/numeric/error.hpp"
#include "samelight/spectrum/column_doubts.hpp"

#include "roles.hpp"

namespace samelight::io {

std::vector<Warning> column_doubts(const LightColumn& column) {
    return samelight::column_doubts(
        {column.name, column.light, detail::role_of(column.name) == "black"});
}

}  // namespace samelight::io
