// What all gardens share: the facts, the words that documents may use, the fonts, the program's
// name.
#pragma once

#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "document/known_words.h"
#include "sheets/fonts.h"
#include "study/study.h"

namespace spadework::server {

struct Example {
  std::string name;  // "ker-avel"
  std::string_view text;
};

struct Workshop {
  study::Known known;
  document::KnownWords words;
  std::string program;         // "Spadework 0.1.0"
  const sheets::Fonts& fonts;  // one thread at a time: fonts_busy
  std::vector<Example> examples;
  int threads = 1;
  mutable std::mutex fonts_busy = {};
};

}  // namespace spadework::server
