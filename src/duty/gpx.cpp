// SPDX-License-Identifier: MIT
// GPX: trk > trkseg > trkpt with lat, lon, ele, time, and speed or accuracy in an extension or, in
// old files, beside them (GPX 1.1 and 1.0, from memory).
#include "caseload/error.hpp"
#include "duty/clock.hpp"
#include "duty/number.hpp"
#include "duty/track.hpp"

#include <boost/property_tree/ptree.hpp>
#include <boost/property_tree/xml_parser.hpp>

#include <fmt/format.h>

#include <cmath>
#include <sstream>

namespace caseload::duty {
namespace {

using Node = boost::property_tree::ptree;

constexpr int deepest = 40;  // of elements: the XML reader calls itself for each

class GpxReader {
public:
    explicit GpxReader(std::string file) : file_(std::move(file)) {}

    std::vector<TrackPoint> read(const std::string& text) {
        check_depth(text);
        const Node root = parsed(text);
        const Node* gpx = nullptr;
        for (const auto& [name, node] : root)
            if (local(name) == "gpx") gpx = &node;
        if (gpx == nullptr) refuse("this is XML, but no GPX", "export the track as GPX");
        for (const auto& [name, node] : *gpx) {
            if (local(name) == "rte") route_ = true;
            if (local(name) != "trk") continue;
            for (const auto& [part, segment] : node)
                if (local(part) == "trkseg") read_segment(segment);
        }
        if (points_.empty()) refuse_no_points();
        return std::move(points_);
    }

private:
    [[noreturn]] void refuse(std::string text, std::string hint, int line = 0) const {
        throw Error(
            Error::Kind::input,
            {Problem{{file_, line, line > 0 ? 1 : 0, 0, {}}, std::move(text), std::move(hint)}});
    }

    [[noreturn]] void refuse_no_points() const {
        if (route_ || without_time_ > 0)
            refuse("this is a route without times: a plan, not a drive",
                   "export the recorded track, whose points have a time");
        refuse("this GPX has no track in it", "export the recorded track, not waypoints");
    }

    static std::string_view local(std::string_view name) {
        const std::size_t colon = name.rfind(':');
        return colon == std::string_view::npos ? name : name.substr(colon + 1);
    }

    /// Before the XML reader, which has no limit of its own: counts elements that are open.
    void check_depth(const std::string& text) const {
        int open = 0;
        const auto behind = [&](std::string_view mark, std::size_t from) {
            const std::size_t at = text.find(mark, from);
            return at == std::string::npos ? text.size() : at + mark.size();
        };
        for (std::size_t at = text.find('<'); at < text.size(); at = text.find('<', at)) {
            if (text.compare(at, 4, "<!--") == 0) {
                at = behind("-->", at);
            } else if (text.compare(at, 9, "<![CDATA[") == 0) {
                at = behind("]]>", at);
            } else if (text.compare(at, 2, "<?") == 0) {
                at = behind("?>", at);
            } else if (text.compare(at, 2, "<!") == 0) {
                refuse("a GPX has no <! declarations of its own", "export the track as GPX again");
            } else if (text.compare(at, 2, "</") == 0) {
                --open;
                ++at;
            } else {
                const std::size_t end = end_of_tag(text, at);
                if (end == std::string::npos) return;  // the XML reader says where
                if (text[end - 1] != '/' && ++open > deepest)
                    refuse(fmt::format("elements lie more than {} deep in each other", deepest),
                           "export the track as GPX again");
                at = end;
            }
        }
    }

    /// Its >, not one inside quotes.
    static std::size_t end_of_tag(const std::string& text, std::size_t at) {
        char quote = '\0';
        for (; at < text.size(); ++at) {
            const char c = text[at];
            if (quote != '\0')
                quote = c == quote ? '\0' : quote;
            else if (c == '"' || c == '\'')
                quote = c;
            else if (c == '>')
                return at;
        }
        return std::string::npos;
    }

    [[nodiscard]] Node parsed(const std::string& text) const {
        Node root;
        std::istringstream stream(text);
        namespace xml = boost::property_tree::xml_parser;
        try {
            read_xml(stream, root, xml::trim_whitespace | xml::no_comments);
        } catch (const xml::xml_parser_error& error) {
            refuse(fmt::format("this GPX is malformed: {}", error.message()),
                   "was the export or the copy cut off? Export the track again",
                   static_cast<int>(error.line()));
        }
        return root;
    }

    void read_segment(const Node& segment) {
        for (const auto& [name, node] : segment) {
            if (local(name) != "trkpt") continue;
            ++seen_;
            TrackPoint point;
            bool timed = false;
            for (const auto& [part, inner] : node) {
                if (part == "<xmlattr>") {
                    for (const auto& [attribute, value] : inner)
                        if (attribute == "lat")
                            point.latitude_deg = number(value.data(), "lat");
                        else if (attribute == "lon")
                            point.longitude_deg = number(value.data(), "lon");
                    continue;
                }
                if (local(part) == "time") {
                    const auto t_s = clock_s(inner.data());
                    if (!t_s || !(std::fabs(*t_s) < latest_s))
                        refuse(
                            fmt::format("track point {}: \"{}\" is no time", seen_, inner.data()),
                            "a GPX has times like 2026-05-31T10:11:12Z");
                    point.t_s = *t_s;
                    timed = true;
                }
                take(part, inner, point);
            }
            if (!point.latitude_deg || !point.longitude_deg)
                refuse(fmt::format("track point {} has no lat and lon", seen_),
                       "export the track as GPX again");
            if (!timed) {
                ++without_time_;
                continue;
            }
            points_.push_back(point);
            if (points_.size() > most_track_points)
                refuse(fmt::format("the track has more than {} points", most_track_points),
                       "cut it, or record a point a second");
        }
    }

    void take(const std::string& name, const Node& node, TrackPoint& point) const {
        const std::string_view word = local(name);
        if (word == "ele")
            point.altitude_m = number(node.data(), "ele");
        else if (word == "speed")
            point.speed_mps = number(node.data(), "speed");
        else if (word == "accuracy" || word == "hacc")
            point.accuracy_m = number(node.data(), "accuracy");
        else
            for (const auto& [part, inner] : node)
                if (part != "<xmlattr>") take(part, inner, point);
    }

    [[nodiscard]] double number(const std::string& text, std::string_view what) const {
        double value = 0;
        if (number::read_rest(text, Marks{}, value) != Cell::number || !std::isfinite(value) ||
            std::fabs(value) > 1e6)
            refuse(fmt::format("track point {}: {} = \"{}\" is no number", seen_, what, text),
                   "export the track as GPX again");
        return value;
    }

    std::string file_;
    std::vector<TrackPoint> points_;
    std::size_t seen_ = 0;
    std::size_t without_time_ = 0;
    bool route_ = false;
};

}  // namespace

std::vector<TrackPoint> read_gpx(const std::string& text, const std::string& file) {
    return GpxReader(file).read(text);
}

}  // namespace caseload::duty
