#pragma once

#include <string_view>

namespace barrow::design {

/// The text of a file beside this one, without ".toml", built into the program ("bases/wire"). The
/// build writes this function from the files (embed_texts.cmake). Throws base::broken
/// for a name there is not.
std::string_view ready_text(std::string_view name);

} // namespace barrow::design
