// check, findings, why, sources, new.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <nlohmann/json.hpp>
#include <regex>
#include <set>

#include "cli/files.h"
#include "cli/table.h"
#include "cli/verbs.h"
#include "document/limits.h"
#include "document/new_document.h"
#include "exchange/results_json.h"

namespace spadework::cli {
namespace {

std::string count_of(std::size_t n, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", n, n == 1 ? one : many);
}

std::string finding_text(const garden::Finding& finding) {
  std::string out = "  " + wrapped(finding.says, page_width() - 2, 2) + "\n";
  for (const std::string& mend : finding.mend)
    out += "    → " + wrapped(mend, page_width() - 6, 6) + "\n";
  return out;
}

std::string grade_title(garden::Grade grade) {
  switch (grade) {
    case garden::Grade::kMust:
      return "To put right";
    case garden::Grade::kShould:
      return "To look at";
    case garden::Grade::kNote:
      return "To know";
  }
  return "";
}

std::string findings_text(const std::vector<garden::Finding>& findings) {
  std::string out;
  for (const garden::Grade grade :
       {garden::Grade::kMust, garden::Grade::kShould, garden::Grade::kNote}) {
    bool first = true;
    for (const garden::Finding& finding : findings) {
      if (finding.grade != grade) continue;
      if (first) out += (out.empty() ? "" : "\n") + bold(grade_title(grade)) + "\n";
      first = false;
      out += finding_text(finding);
    }
  }
  return out;
}

/// What a garden has, as a sentence.
std::string inventory(const garden::Draft& draft) {
  std::map<std::string, std::size_t> counts;
  for (const garden::Entry& entry : draft.entries) ++counts[entry.table];
  static const std::vector<std::array<const char*, 3>> kinds = {
      {"bed", "bed", "beds"},
      {"wall", "wall or hedge", "walls and hedges"},
      {"building", "building", "buildings"},
      {"tree", "tree", "trees"},
      {"support", "support", "supports"},
      {"seat", "seat", "seats"},
      {"plant", "planting", "plantings"},
      {"change", "change", "changes"}};
  std::vector<std::string> parts;
  for (const auto& [table, one, many] : kinds) {
    if (counts[table] > 0) parts.push_back(count_of(counts[table], one, many));
  }
  return parts.empty() ? "nothing in it yet" : list_words(parts, "and");
}

/// One figure of the text of a value, with as many digits as stand there.
std::string figure_says(double value, const std::string& shown, std::string_view unit, bool step) {
  const std::size_t point = shown.find('.');
  const int digits = point == std::string::npos ? 0 : static_cast<int>(shown.size() - point - 1);
  if (unit == "km") return far_says(metres(1000 * value), Units::kImperial);
  if (unit == "m") return length_says(metres(value), Units::kImperial, digits);
  if (unit == "m²") return area_says(square_metres(value), Units::kImperial, digits);
  return step ? warmer_says(kelvins(value), Units::kImperial)
              : warmth_says(celsius(value), Units::kImperial);
}

/// The value of a link in the units asked: "1.34 m above the datum" as "4.4 ft above the datum".
/// What the document says stays as it is typed there.
std::string value_says(const Trace& trace, Units units) {
  const bool given = trace.standing == Standing::kMeasured || trace.standing == Standing::kGuessed;
  if (units == Units::kMetric || (given && trace.inputs.empty())) return trace.value;
  static const std::regex kFigure(
      "(-?[0-9]+\\.?[0-9]*)(?: ± ([0-9]+\\.?[0-9]*))? (km|m²|m|°C)(?!²|/|[A-Za-z])");
  const bool of_errors = trace.name.ends_with("plus or minus");
  std::string out;
  auto from = trace.value.cbegin();
  for (std::sregex_iterator it(trace.value.cbegin(), trace.value.cend(), kFigure), none; it != none;
       ++it) {
    const std::smatch& match = *it;
    const std::string shown = match[1], unit = match[3];
    const bool unrounded = match.position() == 0 && trace.has_number && trace.unit == unit;
    std::string says = figure_says(
        unrounded ? (shown[0] == '-' ? trace.number : std::abs(trace.number)) : std::stod(shown),
        shown, unit, of_errors);
    if (match[2].matched) {
      const std::string error = figure_says(std::stod(match[2]), match[2], unit, true);
      says.insert(says.find(' '), " ± " + error.substr(0, error.find(' ')));
    }
    out.append(from, match[0].first).append(says);
    from = match[0].second;
  }
  return out.append(from, trace.value.cend());
}

/// One link and what it rests on: `lead` is the branch that it hangs on, `below` what runs past it.
void trace_lines(const Trace& trace, Units units, const std::string& lead, const std::string& below,
                 std::set<std::string>& cited, std::string& out) {
  const int room = page_width() - shown_width(lead);
  std::string line = trace.name;
  if (!trace.value.empty()) line += ": " + value_says(trace, units);
  if (trace.standing != Standing::kDerived || (trace.inputs.empty() && trace.method.empty()))
    line += fmt::format(" ({})", standing_says(trace.standing));
  if (!trace.where.empty()) line += "  " + trace.where;
  for (const std::string& source : trace.sources) {
    line += fmt::format(" [{}]", source);
    cited.insert(source);
  }
  const auto add = [&](const std::string& first, const std::string& rest, std::string_view text) {
    std::string lines = wrapped(text, room, 0);
    for (std::size_t k = lines.find('\n'); k != std::string::npos; k = lines.find('\n', k + 1))
      lines.insert(k + 1, rest);
    out += first + lines + "\n";
  };
  const std::string bar = below + (trace.inputs.empty() ? "  " : "│ ");
  add(lead, bar, line);
  if (!trace.method.empty()) add(bar, bar, trace.method);
  for (std::size_t i = 0; i < trace.inputs.size(); ++i) {
    const bool last = i + 1 == trace.inputs.size();
    trace_lines(trace.inputs[i], units, below + (last ? "└ " : "├ "), below + (last ? "  " : "│ "),
                cited, out);
  }
}

std::string source_text(const facts::Source& source) {
  std::string out = fmt::format("[{}] {}", source.id, source.citation);
  if (!source.seen.empty()) out += fmt::format(" Seen: {}.", source.seen);
  if (!source.licence.empty()) out += " " + source.licence;
  return wrapped(out, page_width(), 4) + "\n";
}

/// What the program's own methods rest on.
constexpr std::pair<const char*, const char*> kMethods[] = {
    {"spa", "the sun's position"},
    {"delta-t", "the sun's position"},
    {"spencer", "the beam above the air"},
    {"cimo-1981", "the beam above the air"},
    {"ineichen-perez", "the clear sky's beam"},
    {"perez-2002", "the clear sky's beam"},
    {"r-sun", "the haze of the clear sky"},
    {"kasten-young", "the air mass"},
    {"standard-atmosphere", "the pressure with height"},
    {"wmo8", "what a sun hour is"},
    {"closed-form", "shadows and crowns"},
    {"psu-light", "full sun to shade by hours"},
    {"dwd-climat", "the stations' months"},
    {"ukmo-historic", "the stations' months"},
    {"stations", "how sure figures from stations are"},
    {"shepard1968", "a place's figures from stations around it"},
    {"hutchinson1995", "a place's figures from stations around it"},
    {"conrad1946", "coast or inland"},
    {"fao56", "radiation from sunshine or the swing of temperature"},
    {"frere-popov1979", "how sure radiation from sunshine is"},
    {"wmo-1203", "months of a weather file"},
    {"epw-format", "weather files"},
    {"duffie-beckman", "the day's radiation above the air"},
    {"collares-pereira-rabl", "a day's radiation by the hour"},
    {"liu-jordan", "a day's radiation by the hour"},
    {"erbs", "how much light comes from the sky"},
    {"hay-davies", "the bright sky about the sun"},
    {"cie-overcast", "the overcast sky"},
    {"vogel", "directions over the sky"},
    {"faust-logan", "photons in a megajoule"},
    {"monsi1953", "light through the leaves of crops"},
    {"hopkins1920", "leaf dates by latitude and height"},
    {"richardson2019", "leaf dates by latitude and height"},
    {"cufar2012", "leaf dates by latitude and height, compared"},
    {"bowyer1981", "the ground between its spot levels"},
    {"andrew1979", "whether a place is surveyed"},
    {"shoelace", "areas"},
    {"hertel1983", "convex parts of outlines"},
    {"damerau", "the nearest known word"},
    {"iso4217", "currency codes"},
    {"posix-tz", "clock changes to come"},
    {"fnv", "keys of results"},
    {"splitmix", "seeded chance"},
    {"oklab", "colours"},
    {"yuksel2011", "curves on drawings"},
    {"mitchell1991", "stipple on drawings"},
    {"rfc4648", "type inside drawings"},
};

/// Which facts and methods rest on each source.
std::map<std::string, std::set<std::string>> uses_of_sources() {
  std::map<std::string, std::set<std::string>> uses;
  const auto add = [&](const auto& fact, const std::string& what) {
    for (const std::string& source : fact.sources) uses[source].insert(what);
  };
  for (const facts::TreeKind& tree : catalogue().trees.all()) {
    add(tree.beam_through.leaf_on, "tree " + tree.id);
    add(tree.beam_through.leaf_off, "tree " + tree.id);
    add(tree.crown_base_share, "tree " + tree.id);
    if (tree.total_through.leaf_on) add(*tree.total_through.leaf_on, "tree " + tree.id);
    if (tree.leaves.habit != facts::LeafHabit::kEvergreen) add(tree.leaves.full, "tree " + tree.id);
  }
  for (const facts::BarrierKind& wall : catalogue().barriers.all())
    add(wall.light_through.leaf_on, "wall " + wall.id);
  for (const facts::SupportKind& support : catalogue().supports.all())
    add(support.light_through, "support " + support.id);
  for (const facts::CoverKind& cover : catalogue().covers.all())
    add(cover.light_through, "cover " + cover.id);
  for (const facts::Crop& crop : catalogue().crops.all()) {
    add(crop.height, "crop " + crop.id);
    add(crop.spread, "crop " + crop.id);
    add(crop.growth.leaf_area, "crop " + crop.id);
    add(crop.growth.extinction, "crop " + crop.id);
    if (crop.growth.way == facts::GrowthWay::kSown) add(crop.growth.stages, "crop " + crop.id);
  }
  for (const auto& [key, what] : kMethods) uses[key].insert(what);
  return uses;
}

Result<double> number_in(const char* option, const std::string& text, double low, double high) {
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc() || end != text.data() + text.size() || !(value >= low && value <= high))
    return fail(ErrorCode::kWrongUse, option,
                fmt::format("{} takes a number of degrees from {:g} to {:g}.", option, low, high),
                fmt::format("For example {} {}.", option, high > 90 ? "-4.36" : "48.41"));
  return value;
}

/// Tells the problems of a document, and gives the exit status.
int check_failed(const CommonOptions& options, const std::vector<Error>& problems) {
  if (options.json) {
    nlohmann::json all = nlohmann::json::array();
    for (const Error& problem : problems) all.push_back(problem_json(problem));
    print_json({{"problems", all}});
  } else {
    tell_problems(problems);
  }
  return 1;
}

/// Errors: those of the weather file and of the station are the document's.
Result<std::vector<garden::Finding>> findings_of(const CommonOptions& options, ReadGarden read) {
  const auto study = study_of(options, std::move(read), 1);
  if (!study) return tl::unexpected<Error>(study.error());
  return (*study)->findings(options.scheme);
}

}  // namespace

int check_verb(const CommonOptions& options) {
  auto read = read_garden(options);
  std::vector<Error> problems;
  if (read)
    problems = read->document.problems;
  else if (exit_status(read.error().code) == 1)
    problems = {read.error()};
  else
    return tell(read.error());
  if (!problems.empty()) return check_failed(options, problems);
  const std::string has = inventory(read->document.draft);
  const auto findings = findings_of(options, std::move(*read));
  if (!findings && exit_status(findings.error().code) == 1)
    return check_failed(options, {findings.error()});
  if (!findings) return tell(findings.error());
  if (options.json) {
    print_json({{"problems", nlohmann::json::array()}});
    return 0;
  }
  if (options.quiet) return 0;
  print_text(
      wrapped(fmt::format("{} reads well: {}.", name_of(options.garden), has), page_width(), 0) +
      "\n");
  if (!findings->empty())
    print_text(fmt::format("{}; see them with: spadework findings {}\n",
                           count_of(findings->size(), "finding", "findings"), options.garden));
  return 0;
}

int findings_verb(const CommonOptions& options) {
  const Opened opened = open_garden(options);
  if (!opened.study) return opened.status;
  const auto stand = opened.study->stand(options.scheme);
  if (!stand) return tell(stand.error());
  const auto findings =
      opened.study->findings(options.scheme, units_of(options, (*stand)->garden.site));
  if (!findings) return tell(findings.error());
  if (options.json) {
    nlohmann::json all = nlohmann::json::array();
    for (const garden::Finding& finding : *findings) all.push_back(exchange::finding_json(finding));
    print_json({{"scheme", options.scheme}, {"findings", all}});
  } else if (findings->empty()) {
    print_text("Nothing overlaps, and everything stands where it can.\n");
  } else {
    print_text(findings_text(*findings));
  }
  return 0;
}

int why_verb(const CommonOptions& options, const std::string& pointer) {
  const Opened opened = open_garden(options);
  if (!opened.study) return opened.status;
  const auto trace = opened.study->why(options.scheme, pointer);
  if (!trace) return tell(trace.error());
  const auto stand = opened.study->stand(options.scheme);
  if (!stand) return tell(stand.error());
  if (options.json) {
    print_json(exchange::trace_json(*trace));
    return 0;
  }
  std::set<std::string> cited;
  std::string text;
  trace_lines(*trace, units_of(options, (*stand)->garden.site), "", "", cited, text);
  if (!cited.empty()) text += "\n" + bold("Sources") + "\n";
  for (const std::string& key : cited) {
    if (const facts::Source* source = catalogue().source(key)) text += source_text(*source);
  }
  print_text(text);
  return 0;
}

int sources_verb(const std::string& key, bool json) {
  const auto uses = uses_of_sources();
  nlohmann::json all = nlohmann::json::array();
  std::string text;
  std::vector<std::string> keys;
  for (const facts::Source& source : catalogue().sources.all()) {
    keys.push_back(source.id);
    if (!key.empty() && source.id != key) continue;
    const auto used = uses.find(source.id);
    nlohmann::json used_by = nlohmann::json::array();
    if (used != uses.end()) used_by = used->second;
    all.push_back({{"id", source.id},
                   {"citation", source.citation},
                   {"seen", source.seen},
                   {"licence", source.licence},
                   {"used_by", used_by}});
    text += source_text(source);
  }
  if (!key.empty() && all.empty()) {
    const std::string near = nearest_word(key, keys);
    return tell(Error{ErrorCode::kWrongUse, key, fmt::format("There is no source “{}”.", key),
                      near.empty() ? "All are listed by: spadework sources"
                                   : fmt::format("Did you mean “{}”?", near)});
  }
  if (json)
    print_json({{"sources", all}});
  else
    print_text(text);
  return 0;
}

int new_verb(const NewOptions& options) {
  const auto latitude = number_in("--latitude", options.latitude, -90, 90);
  if (!latitude) return tell(latitude.error());
  const auto longitude = number_in("--longitude", options.longitude, -180, 180);
  if (!longitude) return tell(longitude.error());
  const auto text = document::new_document(
      {options.title, degrees(*latitude), degrees(*longitude), options.time_zone});
  if (!text) {
    tell(text.error());
    return exit_status(ErrorCode::kWrongUse);
  }
  if (read_file(options.file, document::kMostBytes))
    return tell(Error{ErrorCode::kCannotWrite, options.file,
                      fmt::format("{} is already there and stays as it is.", options.file),
                      "Choose another name."});
  if (const auto written = write_file(options.file, *text); !written) return tell(written.error());
  if (options.json)
    print_json({{"file", options.file}});
  else
    print_text(fmt::format("{} is begun. Draw what is there in it, then: spadework light {}\n",
                           options.file, options.file));
  return 0;
}

}  // namespace spadework::cli
