/* Whether this is a sanitized build, which is some ten times slower: long tests then do less. */
#ifndef SUPPORT_SANITIZED_H
#define SUPPORT_SANITIZED_H

#if defined(__SANITIZE_ADDRESS__)
#define SANITIZED 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
#define SANITIZED 1
#endif
#endif
#ifndef SANITIZED
#define SANITIZED 0
#endif

#endif
