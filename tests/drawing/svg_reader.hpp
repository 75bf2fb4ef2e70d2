// SPDX-License-Identifier: BSL-1.0
#pragma once

// Reads the XML that drawings are written in, strictly and no further: elements, quoted attributes, text, the five
// named and numbered references in use. Anything else is an error.

#include <cstddef>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

namespace svg_reader {

struct Element {
    std::string name;
    std::map<std::string, std::string> attributes;
    std::string text;    ///< what stands directly inside
    std::size_t parent;  ///< index of the element around it; its own for the root
};

class Reader {
public:
    explicit Reader(const std::string& document) : in_{document} {}

    /// Elements in document order. Throws std::runtime_error where the text is not well formed.
    std::vector<Element> read() {
        while (at_ < in_.size()) {
            if (in_[at_] == '<') {
                read_tag();
            } else {
                read_text();
            }
        }
        require(open_.empty() && !elements_.empty(), "elements left open");
        return elements_;
    }

private:
    void require(bool holds, const std::string& what) const {
        if (!holds) {
            throw std::runtime_error{what + " at byte " + std::to_string(at_) + ": " +
                                     in_.substr(at_ < 20 ? 0 : at_ - 20, 60)};
        }
    }
    [[nodiscard]] char peek() const {
        require(at_ < in_.size(), "unexpected end");
        return in_[at_];
    }
    std::string read_name() {
        const std::size_t begin = at_;
        while (std::string{"abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789:-"}.find(peek()) !=
               std::string::npos) {
            ++at_;
        }
        require(at_ > begin, "no name");
        return in_.substr(begin, at_ - begin);
    }
    char read_reference() {
        static const std::map<std::string, char> known{
            {"&lt;", '<'}, {"&gt;", '>'}, {"&amp;", '&'}, {"&quot;", '"'}, {"&#39;", '\''}};
        const std::size_t end = in_.find(';', at_);
        require(end != std::string::npos, "bare ampersand");
        const auto found = known.find(in_.substr(at_, end + 1 - at_));
        require(found != known.end(), "unknown reference");
        at_ = end + 1;
        return found->second;
    }
    char read_character() {
        require(static_cast<unsigned char>(peek()) >= 0x20U || peek() == '\n', "control character");
        return peek() == '&' ? read_reference() : in_[at_++];
    }
    void read_text() {
        const char c = read_character();
        require(c == '\n' || !open_.empty(), "text outside of the root");
        if (!open_.empty()) {
            elements_[open_.back()].text += c;
        }
    }
    void read_tag() {
        ++at_;
        if (peek() == '/') {
            ++at_;
            const std::string name = read_name();
            require(!open_.empty() && elements_[open_.back()].name == name, "closing tag of another element");
            open_.pop_back();
            require(in_[at_++] == '>', "unfinished closing tag");
            return;
        }
        Element element{read_name(), {}, {}, open_.empty() ? elements_.size() : open_.back()};
        require(!open_.empty() || elements_.empty(), "second root");
        while (peek() == ' ') {
            ++at_;
            read_attribute(element);
        }
        elements_.push_back(element);
        open_.push_back(elements_.size() - 1);
        if (peek() == '/') {
            ++at_;
            open_.pop_back();
        }
        require(in_[at_++] == '>', "unfinished tag");
    }
    void read_attribute(Element& element) {
        const std::string name = read_name();
        require(peek() == '=', "attribute without value");
        ++at_;
        require(peek() == '"', "attribute without quotes");
        ++at_;
        std::string value;
        while (peek() != '"') {
            require(peek() != '<', "tag in an attribute");
            value += read_character();
        }
        ++at_;
        require(element.attributes.emplace(name, value).second, "attribute given twice");
    }

    const std::string& in_;
    std::size_t at_ = 0;
    std::vector<Element> elements_;
    std::vector<std::size_t> open_;
};

inline std::vector<Element> read(const std::string& document) { return Reader{document}.read(); }

/// All written words, each text element on a line of its own, and once more joined by spaces as wrapped lines read on.
inline std::string words_of(const std::vector<Element>& elements) {
    std::string lines;
    std::string joined;
    for (const Element& element : elements) {
        if (element.name == "text") {
            lines += element.text + "\n";
            joined += element.text + " ";
        }
    }
    return lines + joined;
}

/// How many text elements hold exactly `words`.
inline std::size_t times_written(const std::vector<Element>& elements, const std::string& words) {
    std::size_t times = 0;
    for (const Element& element : elements) {
        times += element.name == "text" && element.text == words ? 1U : 0U;
    }
    return times;
}
}  // namespace svg_reader
