// What every verb needs: the catalogue inside the program, the document read, problems told.
#pragma once

#include <memory>
#include <nlohmann/json_fwd.hpp>
#include <string>

#include "document/reader.h"
#include "facts/facts.h"
#include "study/study.h"

namespace spadework::cli {

struct CommonOptions {
  std::string garden;  // path of a document or of a garden file
  std::string scheme = "proposed";
  bool json = false;
  bool quiet = false;
  std::string units;  // "metric", "imperial" or empty: as the document says
};

/// The units of what is told: as asked, else as the document says; JSON is metric always.
[[nodiscard]] Units units_of(const CommonOptions& options, const garden::Site& site);

/// The facts inside the program, read once.
[[nodiscard]] const facts::Catalogue& catalogue();
[[nodiscard]] const climate::Stations& stations();
[[nodiscard]] std::string facts_version();
/// "Spadework 0.1.0"
[[nodiscard]] std::string program_name();
/// What the reader of documents asks the catalogue.
[[nodiscard]] document::KnownWords known_words();

/// A garden's document, read and checked, and the weather file that it names.
struct ReadGarden {
  document::ReadDocument document;
  Result<std::string> weather;  // its bytes; without meaning where the document names none
  bool keeps_files = false;     // a garden file: it opens without its weather file too
};

/// Reads a document, the weather file being beside it; or a garden file, with nothing written.
/// Errors: those of reading it.
[[nodiscard]] Result<ReadGarden> read_garden(const CommonOptions& options);

/// A study of a garden that was read without problems.
/// Errors: what is wrong with the weather file beside a document, `where` in it.
[[nodiscard]] Result<std::unique_ptr<study::Study>> study_of(const CommonOptions& options,
                                                             ReadGarden read, int threads);

/// A study of the garden, or nothing with the exit status when it has problems, which are told.
struct Opened {
  std::unique_ptr<study::Study> study;
  int status = 0;
};
[[nodiscard]] Opened open_garden(const CommonOptions& options);

/// Tells an error on standard error and gives its exit status.
int tell(const Error& error);
/// Tells all problems of a document on standard error.
void tell_problems(const std::vector<Error>& problems);

[[nodiscard]] nlohmann::json problem_json(const Error& error);

/// Prints to standard output, as JSON with two spaces or as it is.
void print_json(const nlohmann::json& json);
void print_text(std::string_view text);

}  // namespace spadework::cli
