#pragma once
// What most readings of a file have in common.
#include <cstddef>
#include <map>
#include <vector>

#include "samelight/numeric/form.hpp"

namespace samelight::inline SAMELIGHT_FORM::detail {

/// What most items have; of equally many what comes first; of none what a default is.
template <class Item, class KeyOf>
auto most_common(const std::vector<Item>& items, const KeyOf& key_of) {
    using Key = decltype(key_of(items.front()));
    std::map<Key, std::size_t> counts;
    for (const Item& item : items) {
        ++counts[key_of(item)];
    }
    Key best{};
    std::size_t most = 0;
    for (const Item& item : items) {
        const Key key = key_of(item);
        if (const std::size_t count = counts[key]; count > most) {
            most = count;
            best = key;
        }
    }
    return best;
}

}  // namespace samelight::inline SAMELIGHT_FORM::detail
