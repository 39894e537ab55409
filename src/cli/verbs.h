// The verbs of the command. For the cli room alone.
#pragma once

#include <string>
#include <vector>

#include "cli/session.h"

namespace spadework::cli {

struct LightOptions {
  CommonOptions common;
  std::vector<std::string> places;  // ids, empty: all
  std::string at;                   // X,Y[,Z]
  std::string day;                  // YYYY-MM-DD or MM-DD
  std::string month;                // for pictures
  std::string against;              // a scheme
  std::string grid, svg, png;       // files
  std::string print;                // the place whose sun print is shown
  double cell_m = 0;                // 0: 0.1 m, for pictures of large gardens more
};
int light_verb(const LightOptions& options);

int climate_verb(const CommonOptions& options);
int check_verb(const CommonOptions& options);
int findings_verb(const CommonOptions& options);
int why_verb(const CommonOptions& options, const std::string& pointer);
int sources_verb(const std::string& key, bool json);

struct ServeOptions {
  std::string data_folder;  // empty: the user's own
  std::string app_folder;   // empty: the app inside the program
  std::string example;      // opened at once; empty: the demo garden while there is no other
  int port = 0;
  bool open = true;  // show it in the browser
};
int serve_verb(const ServeOptions& options);

struct NewOptions {
  std::string file, title = "My garden", time_zone;
  std::string latitude, longitude;
  bool json = false;
};
int new_verb(const NewOptions& options);

}  // namespace spadework::cli
