#include "sheets/fonts.h"

#include <pango/pangofc-fontmap.h>
#include <sys/mman.h>
#include <unistd.h>

#include <algorithm>
#include <map>
#include <mutex>
#include <utility>

#include "geometry/hatch.h"
#include "sheets/text_layout.h"

namespace spadework::sheets {

namespace {

constexpr std::array<Cut, kCuts> kCutList{{{"Vollkorn", 400, false},
                                           {"Vollkorn", 600, false},
                                           {"Vollkorn", 400, true},
                                           {"Atkinson Hyperlegible Next", 400, false},
                                           {"Atkinson Hyperlegible Next", 600, false}}};

// A path that opens the bytes as a file. Faces are kept by their path in caches of cairo and
// FreeType, so one path means one content for as long as the program runs.
std::string path_of_bytes(std::string_view bytes) {
  static std::mutex guard;
  static std::map<std::pair<std::size_t, std::uint64_t>, std::string> known;
  const std::lock_guard lock(guard);
  std::string& path = known[{bytes.size(), geometry::seed_of(bytes)}];
  if (!path.empty() || bytes.empty()) return path;
  const int file = memfd_create("spadework-face", MFD_CLOEXEC);
  if (file < 0) return {};
  for (std::string_view rest = bytes; !rest.empty();) {
    const ssize_t written = write(file, rest.data(), rest.size());
    if (written <= 0) {
      close(file);
      return {};
    }
    rest.remove_prefix(static_cast<std::size_t>(written));
  }
  return path = "/proc/self/fd/" + std::to_string(file);
}

// The letters of the face, or null if the bytes are no font.
FcCharSet* add_face(FcConfig* config, std::string_view bytes) {
  const std::string path = path_of_bytes(bytes);
  const auto* file = reinterpret_cast<const FcChar8*>(path.c_str());
  if (path.empty() || FcConfigAppFontAddFile(config, file) != FcTrue) return nullptr;
  const FcFontSet* set = FcConfigGetFonts(config, FcSetApplication);
  for (int i = 0; set != nullptr && i < set->nfont; ++i) {
    FcChar8* of = nullptr;
    FcCharSet* letters = nullptr;
    if (FcPatternGetString(set->fonts[i], FC_FILE, 0, &of) == FcResultMatch &&
        path == reinterpret_cast<const char*>(of) &&
        FcPatternGetCharSet(set->fonts[i], FC_CHARSET, 0, &letters) == FcResultMatch)
      return letters;
  }
  return nullptr;
}

// Pango would load the user's whole font set-up in the background, for nothing: this program uses
// its own faces only. An empty one stands in for it.
void stand_in_for_system_fonts() {
  static std::once_flag once;
  std::call_once(once, [] {
    FcConfig* none = FcConfigCreate();
    FcConfigSetCurrent(none);
    FcConfigDestroy(none);
  });
}

void open_context(Fonts::Inside& inside) {
  stand_in_for_system_fonts();
  inside.map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
  pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(inside.map), inside.config);
  inside.context = pango_font_map_create_context(inside.map);
  // Letters keep their true shapes and widths at every size, as in print.
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(inside.context, options);
  cairo_font_options_destroy(options);
  pango_context_set_round_glyph_positions(inside.context, FALSE);
}

}  // namespace

const Cut& cut(int index) { return kCutList[static_cast<std::size_t>(index)]; }

int cut_index(geometry::Face face, geometry::Weight weight) {
  const int bold = weight == geometry::Weight::kSemiBold ? 1 : 0;
  if (face == geometry::Face::kSerifItalic) return 2;
  return (face == geometry::Face::kSans ? 3 : 0) + bold;
}

const FaceBytes& face_bytes(const FontBytes& bytes, int cut_index) {
  switch (cut_index) {
    case 0:
      return bytes.serif;
    case 1:
      return bytes.serif_semi_bold;
    case 2:
      return bytes.serif_italic;
    case 3:
      return bytes.sans;
    default:
      return bytes.sans_semi_bold;
  }
}

FontBytes font_bytes(const std::function<std::string_view(std::string_view)>& file) {
  const auto face = [&](const std::string& family, const std::string& style) {
    const std::string latin = family + "-latin-" + style, ext = family + "-latin-ext-" + style;
    return FaceBytes{file(latin + ".woff2"), file(latin + ".ttf"), file(ext + ".woff2"),
                     file(ext + ".ttf")};
  };
  const std::string serif = "vollkorn", sans = "atkinson-hyperlegible-next";
  return {face(serif, "400-normal"), face(serif, "600-normal"), face(serif, "400-italic"),
          face(sans, "400-normal"), face(sans, "600-normal")};
}

Fonts::Inside::~Inside() {
  if (context != nullptr) g_object_unref(context);
  if (map != nullptr) {
    pango_fc_font_map_shutdown(PANGO_FC_FONT_MAP(map));
    pango_fc_font_map_set_config(PANGO_FC_FONT_MAP(map), nullptr);  // it would keep its hold
    g_object_unref(map);
  }
  if (config != nullptr) FcConfigDestroy(config);
}

Fonts::Fonts() : inside_(std::make_unique<Inside>()) {}
Fonts::Fonts(Fonts&&) noexcept = default;
Fonts& Fonts::operator=(Fonts&&) noexcept = default;
Fonts::~Fonts() = default;

Result<Fonts> Fonts::open(const FontBytes& bytes) {
  Fonts fonts;
  Inside& inside = *fonts.inside_;
  inside.bytes = bytes;
  inside.config = FcConfigCreate();
  for (int i = 0; i < kCuts; ++i) {
    const FaceBytes& face = face_bytes(bytes, i);
    const auto at = static_cast<std::size_t>(i);
    inside.letters[at] = add_face(inside.config, face.ttf);
    inside.ext_letters[at] = add_face(inside.config, face.ext_ttf);
    if (inside.letters[at] == nullptr || inside.ext_letters[at] == nullptr || face.woff2.empty() ||
        face.ext_woff2.empty())
      return fail(ErrorCode::kCannotRead, "",
                  std::string("the bundled typeface ") + cut(i).family + " " +
                      std::to_string(cut(i).weight) + " cannot be used",
                  "install Spadework again");
  }
  open_context(inside);
  return fonts;
}

double Fonts::text_width_mm(const geometry::Text& text) const {
  return lay_out(*inside_, text).width_mm;
}

std::vector<std::string> Fonts::text_lines(const geometry::Text& text) const {
  std::vector<std::string> lines;
  for (const TextLine& line : lay_out(*inside_, text).lines) lines.push_back(line.words);
  return lines;
}

}  // namespace spadework::sheets
