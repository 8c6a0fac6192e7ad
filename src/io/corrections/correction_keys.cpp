#include "io/corrections/correction_keys.hpp"

#include <cstddef>
#include <map>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "io/files/file_bytes.hpp"
#include "io/text/words.hpp"
#include "samelight/io/correction_file.hpp"
#include "samelight/numeric/error.hpp"

namespace samelight::io::detail {

namespace {

/// Walks over valid JSON from string to string; all else that matters is brackets, commas and line breaks.
class KeyWalk {
  public:
    KeyWalk(std::string_view json, const std::string& source) : json_(json), source_(&source) {}

    void run() {
        for (; i_ < json_.size(); ++i_) {
            switch (json_[i_]) {
                case '{':
                    open_.push_back({true, 0});
                    objects_.emplace_back();
                    break;
                case '[':
                    open_.push_back({false, 0});
                    break;
                case '}':
                case ']':
                    if (open_.back().object) objects_.pop_back();
                    open_.pop_back();
                    break;
                case ',':
                    next_item();
                    break;
                case '\n':
                    ++line_;
                    break;
                case '"':
                    take_string();
                    break;
                default:
                    break;
            }
        }
    }

  private:
    /// What is open, small because a file may be nothing but brackets.
    struct Container {
        bool object;
        std::size_t index;  // of the item, in an array
    };
    struct Object {
        std::map<std::string, std::size_t> lines = {};  // of the keys so far
        std::string key = {};                           // of the value that is being read
        bool key_taken = false;
    };

    void next_item() {
        ++open_.back().index;
        if (open_.back().object) objects_.back().key_taken = false;
    }

    /// A string is a key where it is the first thing of an object's item. Line breaks can't stand in one.
    void take_string() {
        const std::size_t begin = i_;
        bool escaped = false;
        for (++i_; json_[i_] != '"'; ++i_) {
            if (json_[i_] == '\\') {
                escaped = true;
                ++i_;
            }
        }
        if (open_.empty() || !open_.back().object || objects_.back().key_taken) return;
        const std::string_view quoted = json_.substr(begin, i_ + 1 - begin);
        // "\u0061" is the same key as "a".
        std::string key = escaped ? nlohmann::json::parse(quoted).get<std::string>()
                                  : std::string(quoted.substr(1, quoted.size() - 2));
        Object& object = objects_.back();
        object.key_taken = true;
        object.key = key;
        const auto [first, is_new] = object.lines.try_emplace(std::move(key), line_);
        if (!is_new) {
            throw Error(ErrorKind::input, *source_ + ":" + std::to_string(line_),
                        "the key " + shown(path()) + " a second time, after line " +
                            std::to_string(first->second),
                        "each key once");
        }
    }

    /// "residuals[2].before.delta_x".
    [[nodiscard]] std::string path() const {
        std::string text;
        auto object = objects_.begin();
        for (const Container& container : open_) {
            if (container.object) {
                text += (text.empty() ? "" : ".") + object++->key;
            } else {
                text += '[' + std::to_string(container.index) + ']';
            }
        }
        return text;
    }

    std::string_view json_;
    const std::string* source_;
    std::size_t i_ = 0;
    std::size_t line_ = 1;
    std::vector<Container> open_;
    std::vector<Object> objects_;  // those of them that are objects
};

/// Counts what a text of JSON holds, without keeping any of it.
class JsonCount {
  public:
    JsonCount(std::string_view json, const std::string& source) : json_(json), source_(&source) {}

    void run() {
        for (; i_ < json_.size(); ++i_) {
            switch (json_[i_]) {
                case '{':
                case '[':
                    open();
                    break;
                case '}':
                case ']':
                    if (!keys_.empty()) keys_.pop_back();
                    break;
                case ':':
                    key();
                    break;
                case ',':
                    value();
                    break;
                case '\n':
                    ++line_;
                    break;
                case '"':
                    skip_string();
                    break;
                default:
                    break;
            }
        }
    }

  private:
    void open() {
        keys_.push_back(0);
        if (keys_.size() > deepest_correction_file) {
            refuse("more than " + std::to_string(deepest_correction_file) +
                       " brackets within each other",
                   "a correction file, which has 4");
        }
        value();
    }
    void key() {
        if (!keys_.empty() && ++keys_.back() > most_correction_keys) {
            refuse("an object of more than " + std::to_string(most_correction_keys) + " keys",
                   "a correction file, whose objects have no more");
        }
    }
    void value() {
        if (++values_ > most_correction_values) {
            refuse("more than " + std::to_string(most_correction_values) + " values",
                   "a correction file, which has no more");
        }
    }
    void skip_string() {
        for (++i_; i_ < json_.size() && json_[i_] != '"' && json_[i_] != '\n'; ++i_) {
            if (json_[i_] == '\\') ++i_;
        }
        line_ += i_ < json_.size() && json_[i_] == '\n' ? 1U : 0U;
    }
    [[noreturn]] void refuse(const std::string& found, const std::string& wanted) const {
        throw Error(ErrorKind::input, *source_ + ":" + std::to_string(line_), found, wanted);
    }

    std::string_view json_;
    const std::string* source_;
    std::size_t i_ = 0;
    std::size_t line_ = 1;
    std::size_t values_ = 0;
    std::vector<std::size_t> keys_;  // of each container that is open
};

}  // namespace

void require_modest_json(std::string_view json, const std::string& source) {
    JsonCount(json, source).run();
}

void require_unique_keys(std::string_view json, const std::string& source) {
    KeyWalk(json, source).run();
}

}  // namespace samelight::io::detail
