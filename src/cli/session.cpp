#include "cli/session.h"

#include <fmt/format.h>

#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "base/digest.h"
#include "cli/files.h"
#include "document/limits.h"
#include "embedded/embedded.h"
#include "exchange/garden_weather.h"
#include "store/store.h"

namespace spadework::cli {
namespace {

facts::CatalogueBytes embedded_catalogue() {
  return {embedded_file("sources.toml"),   embedded_file("trees.toml"),
          embedded_file("barriers.toml"),  embedded_file("supports.toml"),
          embedded_file("covers.toml"),    embedded_file("crops.toml"),
          embedded_file("vocabulary.toml")};
}

/// Units of what is told, where it is not the document's own.
std::optional<Units> units_asked(const CommonOptions& options) {
  if (options.json) return Units::kMetric;
  if (options.units.empty()) return std::nullopt;
  return options.units == "imperial" ? Units::kImperial : Units::kMetric;
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

std::string program_name() { return std::string("Spadework ") + SPADEWORK_VERSION; }

document::KnownWords known_words() {
  document::KnownWords words;
  words.knows = [](std::string_view list, std::string_view word) {
    return catalogue().knows(list, word);
  };
  words.words_of = [](std::string_view list) { return catalogue().names_of(list); };
  return words;
}

Units units_of(const CommonOptions& options, const garden::Site& site) {
  return units_asked(options).value_or(site.imperial ? Units::kImperial : Units::kMetric);
}

namespace {

Result<std::string> no_weather_named() { return std::string(); }

/// The weather file beside the document.
Result<std::string> weather_beside(const std::string& path, const std::string& name) {
  const std::string folder = path.substr(0, path.find_last_of('/') + 1);
  auto bytes = read_file(folder + name, store::kMostAttached_bytes);
  if (!bytes)
    bytes.error().hint = fmt::format(
        "It is the weather file that {} names, and is looked for beside it. Without "
        "climate.weather_file the stations around stand in.",
        path);
  return bytes;
}

Result<ReadGarden> read_document_file(const std::string& path) {
  auto text = read_file(path, document::kMostBytes);
  if (!text) return tl::unexpected<Error>(text.error());
  ReadGarden read{document::read_document(*text, name_of(path), known_words()), no_weather_named()};
  const std::string weather = climate::weather_file_of(read.document.draft);
  if (!weather.empty() && read.document.problems.empty())
    read.weather = weather_beside(path, weather);
  return read;
}

Result<ReadGarden> read_garden_file(const std::string& path) {
  auto file = store::GardenFile::look(path, program_name());
  if (!file) return tl::unexpected<Error>(file.error());
  const auto text = file->text();
  if (!text) return tl::unexpected<Error>(text.error());
  ReadGarden read{document::read_document(*text, store::document_name(path), known_words()),
                  no_weather_named(), true};
  const std::string weather = climate::weather_file_of(read.document.draft);
  if (!weather.empty()) read.weather = file->attachment(weather);
  return read;
}

}  // namespace

Result<ReadGarden> read_garden(const CommonOptions& options) {
  const std::string& path = options.garden;
  const bool garden_file =
      path.ends_with(store::kFileEnding) || begins_with(path, "SQLite format 3");
  return garden_file ? read_garden_file(path) : read_document_file(path);
}

Result<std::unique_ptr<study::Study>> study_of(const CommonOptions& options, ReadGarden read,
                                               int threads) {
  auto study = std::make_unique<study::Study>(
      std::move(read.document.draft), study::Known{catalogue(), stations(), facts_version()},
      threads);
  const std::string name = climate::weather_file_of(study->draft());
  if (name.empty()) return study;
  if (read.keeps_files) {
    (void)exchange::give_kept_weather(*study, read.weather, units_asked(options));
    return study;
  }
  if (!read.weather) return tl::unexpected<Error>(read.weather.error());
  const auto given = exchange::give_weather(*study, *read.weather, name, units_asked(options));
  if (!given) return tl::unexpected<Error>(given.error());
  return study;
}

Opened open_garden(const CommonOptions& options) {
  auto read = read_garden(options);
  if (!read) return {nullptr, tell(read.error())};
  if (!read->document.problems.empty()) {
    tell_problems(read->document.problems);
    return {nullptr, 1};
  }
  auto study = study_of(options, std::move(*read), hardware_threads());
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
