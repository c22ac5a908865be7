// Has moved.
#pragma once

#include "render/shared/words.h"
