#include "cli/cli.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <functional>

#include "cli/verbs.h"
#include "garden/schema.h"
#include "server/server.h"

namespace spadework::cli {
namespace {

void add_common(CLI::App* verb, CommonOptions& options, bool scheme) {
  verb->add_option("GARDEN", options.garden,
                   "the garden: its document (.toml), or its file in the app’s folder (.garden)")
      ->required();
  if (scheme)
    verb->add_option("--scheme", options.scheme, "found, proposed (default) or a scheme’s name");
  verb->add_flag("--json", options.json, "one JSON object, metric, figures unrounded");
  verb->add_flag("--quiet", options.quiet, "say only what was asked for");
  verb->add_option("--units", options.units, "metric or imperial (default: as the document says)")
      ->check(CLI::IsMember({"metric", "imperial"}));
}

/// The verbs with the options they fill and what to run.
struct Command {
  CLI::App app{"Do the spadework on paper, so that the spade work goes right.", "spadework"};
  LightOptions light;
  CommonOptions check, findings, why, climate;
  NewOptions fresh;
  ServeOptions serve;
  std::string pointer, source;
  bool sources_json = false;
  std::function<int()> chosen;

  Command() {
    app.require_subcommand(1);
    app.set_version_flag("--version", std::string("spadework ") + SPADEWORK_VERSION);
    app.failure_message(CLI::FailureMessage::simple);
    serve.port = server::kUsualPort;
    add_light();
    add_small();
  }

  void add_light() {
    CLI::App* verb = app.add_subcommand("light", "sun hours of every bed, seat and plant");
    add_common(verb, light.common, true);
    verb->add_option("--places", light.places, "only these: ID,ID,…")->delimiter(',');
    verb->add_option("--at", light.at,
                     "one spot: X,Y or X,Y,Z, metres in the plan, Z above ground");
    verb->add_option("--day", light.day, "one day: 2026-06-21, or 06-21");
    verb->add_option("--against", light.against, "the difference to another scheme");
    verb->add_option("--grid", light.grid, "write the sun hours of every cell: FILE.csv");
    verb->add_option("--cell", light.cell_m, "cell of the grid and pictures, metres (0.1)")
        ->check(CLI::Range(0.005, 10.0));
    verb->add_option("--svg", light.svg, "write a picture: FILE.svg");
    verb->add_option("--png", light.png, "write a picture: FILE.png");
    verb->add_option("--month", light.month, "picture of this month (default: the growing months)");
    verb->add_option("--print", light.print,
                     "the sun print of this place, as a picture or with --json: ID");
    verb->callback([this] { chosen = [this] { return light_verb(light); }; });
  }

  void add_small() {
    CLI::App* verb = app.add_subcommand("check", "read a document and list every problem");
    add_common(verb, check, true);
    verb->callback([this] { chosen = [this] { return check_verb(check); }; });

    verb = app.add_subcommand("findings", "all judgements, worst first");
    add_common(verb, findings, true);
    verb->callback([this] { chosen = [this] { return findings_verb(findings); }; });

    verb = app.add_subcommand("climate", "this place’s weather, month by month");
    add_common(verb, climate, true);
    verb->callback([this] { chosen = [this] { return climate_verb(climate); }; });

    verb = app.add_subcommand("why", "the chain behind a figure, by its JSON pointer");
    add_common(verb, why, true);
    verb->add_option("POINTER", pointer,
                     "such as /light/places/ID/months/5/sun_h_per_day or "
                     "/climate/months/5/rain_mm")
        ->required();
    verb->callback([this] { chosen = [this] { return why_verb(why, pointer); }; });

    verb = app.add_subcommand("sources", "every source, or one");
    verb->add_option("KEY", source, "a source’s key");
    verb->add_flag("--json", sources_json, "one JSON object");
    verb->callback([this] { chosen = [this] { return sources_verb(source, sources_json); }; });

    verb = app.add_subcommand("new", "start a document");
    verb->add_option("FILE", fresh.file, "the document to begin, such as my-garden.toml")
        ->required();
    verb->add_option("--title", fresh.title, "what the garden is called");
    verb->add_option("--latitude", fresh.latitude, "degrees, south negative")->required();
    verb->add_option("--longitude", fresh.longitude, "degrees, west negative")->required();
    verb->add_option("--time-zone", fresh.time_zone, "such as Europe/Paris")->required();
    verb->add_flag("--json", fresh.json, "one JSON object");
    verb->callback([this] { chosen = [this] { return new_verb(fresh); }; });

    verb = app.add_subcommand("serve", "the app in the browser, on this machine only");
    verb->add_option("--data", serve.data_folder, "the folder of the gardens");
    verb->add_option("--port", serve.port, "the port (default: 7420)")->check(CLI::Range(0, 65535));
    verb->add_option("--example", serve.example, "open this example, such as ker-avel")
        ->type_name("NAME");
    verb->add_flag("!--no-open", serve.open, "do not show it in the browser");
    verb->add_option("--app-folder", serve.app_folder)->group("");
    verb->callback([this] { chosen = [this] { return serve_verb(serve); }; });

    verb = app.add_subcommand("document", "the garden document, key by key (Markdown)");
    verb->callback([this] {
      chosen = [] {
        print_text(garden::schema_document());
        return 0;
      };
    });
  }
};

}  // namespace

int run(int argc, char** argv) {
  Command command;
  if (argc == 1) {
    std::fputs(command.app.help().c_str(), stderr);
    return exit_status(ErrorCode::kWrongUse);
  }
  try {
    command.app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    const int code = command.app.exit(error);
    return code == 0 ? 0 : 2;
  }
  const int status = command.chosen();
  if (std::fflush(stdout) != 0 || std::ferror(stdout) != 0) {
    return tell(Error{ErrorCode::kCannotWrite, "", "The answer could not be written out whole.",
                      "Is the disk full?"});
  }
  return status;
}

}  // namespace spadework::cli
