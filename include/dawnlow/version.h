/* The one place the version lives. */
#ifndef DAWNLOW_VERSION_H
#define DAWNLOW_VERSION_H
#define DAWN_VERSION "0.1.0"
#endif
