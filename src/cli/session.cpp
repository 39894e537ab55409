#include "cli/session.h"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "base/digest.h"
#include "cli/files.h"
#include "document/limits.h"
#include "embedded/embedded.h"
#include "exchange/exchange.h"

namespace spadework::cli {
namespace {

facts::CatalogueBytes embedded_catalogue() {
  return {embedded_file("sources.toml"),   embedded_file("trees.toml"),
          embedded_file("barriers.toml"),  embedded_file("supports.toml"),
          embedded_file("covers.toml"),    embedded_file("crops.toml"),
          embedded_file("vocabulary.toml")};
}

}  // namespace

const facts::Catalogue& catalogue() {
  static const facts::Catalogue read = [] {
    auto result = facts::read_catalogue(embedded_catalogue());
    if (!result) {
      std::fprintf(stderr, "spadework: the facts inside are broken: %s: %s\n",
                   result.error().where.c_str(), result.error().message.c_str());
      std::abort();
    }
    return std::move(*result);
  }();
  return read;
}

const climate::Stations& stations() {
  static const climate::Stations read = [] {
    auto result = climate::read_stations(embedded_file("stations.csv"));
    if (!result) {
      std::fprintf(stderr, "spadework: the stations inside are broken: %s: %s\n",
                   result.error().where.c_str(), result.error().message.c_str());
      std::abort();
    }
    return std::move(*result);
  }();
  return read;
}

std::string facts_version() {
  const facts::CatalogueBytes bytes = embedded_catalogue();
  Digest digest;
  for (const std::string_view file : {bytes.trees, bytes.barriers, bytes.supports, bytes.covers,
                                      bytes.crops, embedded_file("stations.csv")})
    digest.add(file);
  return digest.hex();
}

document::KnownWords known_words() {
  document::KnownWords words;
  words.knows = [](std::string_view list, std::string_view word) {
    return catalogue().knows(list, word);
  };
  words.words_of = [](std::string_view list) { return catalogue().names_of(list); };
  return words;
}

Units units_of(const CommonOptions& options, const garden::Site& site) {
  if (options.json) return Units::kMetric;
  const bool imperial = options.units.empty() ? site.imperial : options.units == "imperial";
  return imperial ? Units::kImperial : Units::kMetric;
}

Result<document::ReadDocument> read_garden(const CommonOptions& options) {
  auto text = read_file(options.garden, document::kMostBytes);
  if (!text) return tl::unexpected<Error>(text.error());
  if (text->starts_with("SQLite format 3")) {
    return fail(ErrorCode::kCannotRead, options.garden,
                fmt::format("{} is not a garden document but a database.", options.garden),
                "Give the garden’s document, a text file that ends in .toml.");
  }
  const std::size_t slash = options.garden.find_last_of('/');
  const std::string name =
      slash == std::string::npos ? options.garden : options.garden.substr(slash + 1);
  return document::read_document(*text, name, known_words());
}

namespace {

/// The weather file beside the document.
Result<climate::Weather> read_weather(const CommonOptions& options, const std::string& name) {
  constexpr std::size_t kMostBytes = std::size_t{64} << 20;
  const std::size_t slash = options.garden.find_last_of('/');
  const std::string folder = slash == std::string::npos ? "" : options.garden.substr(0, slash + 1);
  const auto bytes = read_file(folder + name, kMostBytes);
  if (!bytes) {
    Error error = bytes.error();
    error.hint = fmt::format(
        "It is the weather file that {} names, and is looked for beside it. Without "
        "climate.weather_file the stations around stand in.",
        options.garden);
    return tl::unexpected<Error>(std::move(error));
  }
  return exchange::read_weather(*bytes, name);
}

/// Whether a weather file belongs to the garden of a draft, as it is found.
std::vector<std::string> doubts_of(const CommonOptions& options, const garden::Draft& draft,
                                   const climate::Weather& weather) {
  const auto garden = garden::resolve(draft, "found");
  if (!garden) return {};  // told by the verb
  const garden::Site& site = garden->site;
  return exchange::file_doubts(weather, site.latitude, site.longitude,
                               climate::elevation_of(*garden, stations()), units_of(options, site));
}

}  // namespace

Result<std::unique_ptr<study::Study>> study_of(const CommonOptions& options, garden::Draft draft,
                                               int threads) {
  const std::string file = climate::weather_file_of(draft);
  auto study = std::make_unique<study::Study>(
      std::move(draft), study::Known{catalogue(), stations(), facts_version()}, threads);
  if (!file.empty()) {
    auto weather = read_weather(options, file);
    if (!weather) return tl::unexpected<Error>(weather.error());
    auto doubts = doubts_of(options, study->draft(), *weather);
    study->set_weather(std::move(*weather), std::move(doubts));
  }
  return study;
}

Opened open_garden(const CommonOptions& options) {
  auto read = read_garden(options);
  if (!read) return {nullptr, tell(read.error())};
  if (!read->problems.empty()) {
    tell_problems(read->problems);
    return {nullptr, 1};
  }
  auto study = study_of(options, std::move(read->draft), hardware_threads());
  if (!study) return {nullptr, tell(study.error())};
  return {std::move(*study), 0};
}

int tell(const Error& error) {
  const int status = exit_status(error.code);
  if (status == 1 && !error.where.empty()) {  // in a file: told as its problems are
    tell_problems({error});
    return status;
  }
  std::string text = fmt::format("spadework: {}\n", error.message);
  if (!error.hint.empty()) text += fmt::format("  {}\n", error.hint);
  std::fputs(text.c_str(), stderr);
  return status;
}

void tell_problems(const std::vector<Error>& problems) {
  std::string text;
  for (const Error& problem : problems) {
    text += fmt::format("{}: {}\n", problem.where, problem.message);
    if (!problem.hint.empty()) text += fmt::format("    {}\n", problem.hint);
  }
  text += problems.size() == 1 ? "1 problem to mend.\n"
                               : fmt::format("{} problems to mend.\n", problems.size());
  std::fputs(text.c_str(), stderr);
}

nlohmann::json problem_json(const Error& error) {
  return {{"where", error.where},
          {"code", code_name(error.code)},
          {"message", error.message},
          {"hint", error.hint}};
}

void print_json(const nlohmann::json& json) { print_text(json.dump(2) + "\n"); }

void print_text(std::string_view text) { std::fwrite(text.data(), 1, text.size(), stdout); }

}  // namespace spadework::cli
