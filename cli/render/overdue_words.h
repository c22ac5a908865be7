// Has moved.
#pragma once

#include "render/overdue/words.h"
