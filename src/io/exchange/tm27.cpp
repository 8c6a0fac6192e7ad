// TM-27 XML: one spectral distribution a file.
// Source: IES TM-27-14 as the check values of this project state it: elements, which of them are required, both namespaces in use.
#include <algorithm>
#include <array>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <string>
#include <string_view>

#include "io/exchange/exchange_spectra.hpp"
#include "io/text/words.hpp"

namespace samelight::io::detail {

namespace {

constexpr std::string_view root_name = "IESTM2714";
constexpr std::array<std::string_view, 2> namespaces = {"iestm2714",
                                                        "http://www.ies.org/iestm2714"};
// As many as the plain form may have lines.
constexpr std::ptrdiff_t most_elements = 200000;

/// A text of an element, and where it stands.
struct ElementText {
    std::string text;
    std::size_t offset = 0;
};

class Tm27Reader {
  public:
    explicit Tm27Reader(const Original& file) : file_(file) {}

    ExchangeSpectra read() {
        parse();
        root_ = root();
        take_namespace();
        const pugi::xml_node header = only_child(root_, "Header");
        const pugi::xml_node distribution = only_child(root_, "SpectralDistribution");
        read_texts(header);
        read_texts(distribution);
        say_form();
        check_quantity();
        for (const char* element : {"SpectralQuantity", "Comments"}) {
            if (const ElementText* found = text_of(element)) {
                result_.made.comment(found->offset, found->text);
            }
        }
        const ElementText* name = text_of("Description");
        result_.made.words(offset_of(distribution), "wavelength_nm");
        result_.made.words(name != nullptr ? name->offset : offset_of(header),
                           name != nullptr ? name->text : "light");
        result_.made.end_line();
        result_.heading_lines = result_.made.lines();
        result_.columns = 2;
        read_data(distribution);
        return std::move(result_);
    }

  private:
    [[nodiscard]] std::size_t offset_of(const pugi::xml_node& node) const {
        const std::ptrdiff_t offset = node.offset_debug();
        return offset > 0 ? static_cast<std::size_t>(offset) : 0;
    }

    void parse() {
        const std::string_view text = file_.text();
        for (const char mark : {'<', '='}) {
            if (std::count(text.begin(), text.end(), mark) > 2 * most_elements) {
                file_.refuse(0,
                             std::string("more than ") + std::to_string(2 * most_elements) +
                                 " characters " + mark,
                             "a file of one spectrum, which has fewer");
            }
        }
        const pugi::xml_parse_result parsed =
            document_.load_buffer(text.data(), text.size(),
                                  pugi::parse_default | pugi::parse_doctype, pugi::encoding_utf8);
        if (!parsed) {
            file_.refuse(static_cast<std::size_t>(std::max<std::ptrdiff_t>(parsed.offset, 0)),
                         "XML that isn't whole: " + lowered(parsed.description()),
                         "well-formed XML");
        }
    }

    [[nodiscard]] pugi::xml_node root() const {
        pugi::xml_node found;
        for (const pugi::xml_node& node : document_.children()) {
            if (node.type() == pugi::node_doctype) {
                file_.refuse(0, "a document type declaration, which may define entities",
                             "TM-27 XML without one");
            }
            if (node.type() != pugi::node_element) continue;
            if (found) file_.refuse(offset_of(node), "a second root element", "one");
            found = node;
        }
        if (!found || local_name(found) != root_name) {
            file_.refuse(offset_of(found), "XML whose root element is " + shown(found.name()),
                         "spectra in TM-27 XML, whose root element is IESTM2714");
        }
        return found;
    }

    static std::string_view local_name(const pugi::xml_node& node) {
        const std::string_view name = node.name();
        return name.substr(name.rfind(':') + 1);
    }

    void take_namespace() {
        const std::string_view name = root_.name();
        prefix_ = name.substr(0, name.size() - root_name.size());
        const std::string attribute =
            prefix_.empty() ? "xmlns" : "xmlns:" + prefix_.substr(0, prefix_.size() - 1);
        const pugi::xml_attribute space = root_.attribute(attribute.c_str());
        if (!space) {
            result_.understood.emplace_back("No namespace, taken for TM-27's.");
        } else if (std::find(namespaces.begin(), namespaces.end(), trimmed(space.value())) ==
                   namespaces.end()) {
            file_.refuse(offset_of(root_), "the namespace " + shown(space.value()),
                         "iestm2714 or http://www.ies.org/iestm2714");
        }
    }

    [[nodiscard]] bool is(const pugi::xml_node& node, std::string_view name) const {
        return node.type() == pugi::node_element && node.name() == prefix_ + std::string(name);
    }

    [[nodiscard]] pugi::xml_node only_child(const pugi::xml_node& parent,
                                            std::string_view name) const {
        pugi::xml_node found;
        for (const pugi::xml_node& node : parent.children()) {
            if (!is(node, name)) continue;
            if (found) {
                file_.refuse(offset_of(node), "a second " + std::string(name),
                             "one: a file holds one spectrum");
            }
            found = node;
        }
        if (!found) {
            file_.refuse(offset_of(parent), "no " + std::string(name) + " in " + parent.name(),
                         "Header, then SpectralDistribution");
        }
        return found;
    }

    /// The texts of what isn't spectral data, each element once.
    void read_texts(const pugi::xml_node& parent) {
        for (const pugi::xml_node& node : parent.children()) {
            if (node.type() != pugi::node_element || is(node, "SpectralData")) continue;
            std::string text;
            for (const pugi::xml_node& part : node.children()) {
                text += part.value();
            }
            const std::string name(local_name(node));
            if (node.name() != prefix_ + name) continue;
            file_.require_plain(offset_of(node), text, shown(name));
            if (!texts_.try_emplace(name, ElementText{as_name(text), offset_of(node)}).second) {
                file_.refuse(offset_of(node), "a second " + shown(name), "each element once");
            }
        }
    }

    /// The text of an element; null where it is missing or empty.
    [[nodiscard]] const ElementText* text_of(const std::string& name) const {
        const auto found = texts_.find(name);
        return found == texts_.end() || found->second.text.empty() ? nullptr : &found->second;
    }

    void say_form() {
        const std::string_view version = root_.attribute("version").value();
        result_.understood.insert(result_.understood.begin(),
                                  version.empty() || version == "1.0"
                                      ? std::string("TM-27 XML.")
                                      : "TM-27 XML, by its own words of version " + shown(version) +
                                            ", read as version 1.0.");
        std::string missing;
        for (const char* element :
             {"Description", "DocumentCreator", "DocumentCreationDate", "SpectralQuantity"}) {
            if (text_of(element) == nullptr) {
                missing += (missing.empty() ? "" : ", ") + std::string(element);
            }
        }
        if (!missing.empty()) {
            result_.understood.push_back("Lacks what TM-27 requires: " + missing + '.');
        }
        if (const ElementText* bandwidth = text_of("BandwidthFWHM")) {
            const ElementText* corrected = text_of("BandwidthCorrected");
            result_.understood.push_back(
                "States a bandwidth (FWHM) of " + shown(bandwidth->text) +
                (corrected != nullptr ? ", corrected: " + shown(corrected->text) + '.' : "."));
        }
    }

    /// The form is one for surfaces and filters as well.
    void check_quantity() {
        const ElementText* quantity = text_of("SpectralQuantity");
        if (quantity == nullptr) return;
        const std::string word = lowered(quantity->text);
        for (const char* part : {"reflect", "transmi", "absor"}) {
            if (word.find(part) != std::string::npos) {
                file_.refuse(quantity->offset, "the SpectralQuantity " + shown(quantity->text),
                             "a quantity of light, such as radiance");
            }
        }
        result_.understood.push_back("SpectralQuantity is " + shown(quantity->text) + '.');
    }

    void read_data(const pugi::xml_node& distribution) {
        for (const pugi::xml_node& node : distribution.children()) {
            if (!is(node, "SpectralData")) continue;
            const std::size_t offset = offset_of(node);
            const std::string nm = wavelength_of(node, offset);
            const pugi::xml_node text = node.first_child();
            const bool plain =
                text && !text.next_sibling() &&
                (text.type() == pugi::node_pcdata || text.type() == pugi::node_cdata);
            if (!plain) {
                file_.refuse(offset, "no bare number in SpectralData at " + shown(nm) + " nm",
                             "a number and nothing else");
            }
            const std::string_view value = trimmed(text.value());
            const std::size_t at =
                text.offset_debug() > 0 ? static_cast<std::size_t>(text.offset_debug()) : offset;
            require_plain_digits(at, '<', value);
            file_.require_number(at, value, '.', "SpectralData at " + nm + " nm");
            result_.made.number(offset, nm);
            result_.made.number(at, value);
            result_.made.end_line();
        }
        if (result_.made.lines() == result_.heading_lines) {
            file_.refuse(offset_of(distribution), "a SpectralDistribution without SpectralData",
                         "SpectralData wavelength=\"...\" for each wavelength");
        }
    }

    [[nodiscard]] std::string wavelength_of(const pugi::xml_node& node, std::size_t offset) const {
        std::optional<std::string> found;
        for (const pugi::xml_attribute& attribute : node.attributes()) {
            if (std::string_view(attribute.name()) != "wavelength") continue;
            if (found) file_.refuse(offset, "a second attribute wavelength", "one");
            found = std::string(trimmed(attribute.value()));
        }
        if (!found) {
            file_.refuse(offset, "SpectralData without an attribute wavelength",
                         "SpectralData wavelength=\"...\" for each wavelength");
        }
        require_plain_digits(offset, '>', *found);
        file_.require_number(offset, *found, '.', "a wavelength");
        return *found;
    }

    /// A number needs no references, which might stand for what ends a text (&#0;).
    void require_plain_digits(std::size_t offset, char end, std::string_view number) const {
        const std::string_view rest = file_.text().substr(offset);
        if (rest.substr(0, rest.find(end)).find('&') != std::string_view::npos) {
            file_.refuse(offset, "a character reference beside " + shown(number),
                         "a number in plain digits");
        }
    }

    const Original& file_;
    pugi::xml_document document_;
    pugi::xml_node root_;
    std::string prefix_;  // with its colon
    std::map<std::string, ElementText> texts_;
    ExchangeSpectra result_;
};

}  // namespace

ExchangeSpectra tm27_spectra(const Original& file) { return Tm27Reader(file).read(); }

}  // namespace samelight::io::detail
