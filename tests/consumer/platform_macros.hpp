// SPDX-License-Identifier: BSL-1.0
// Macros that well-known platform headers define.
#define min(a, b) (((a) < (b)) ? (a) : (b))
#define max(a, b) (((a) > (b)) ? (a) : (b))
#define near
#define far
#define small char
#define IN
#define OUT
