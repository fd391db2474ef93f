/* Manual pages are written in mdoc; here is what keeps any text from being taken for markup. */
#ifndef CLI_MDOC_H
#define CLI_MDOC_H

/* All write to standard output. */

/* The head of a page, down to its DESCRIPTION's heading. synopsis may be NULL. */
void dawn_mdoc_head(const char *name, int section, const char *what, const char *synopsis);
/* Running text: a sentence a line, as mdoc wants it. */
void dawn_mdoc_text(const char *text);
/* ".Macro word word": the words are shown as they are. */
void dawn_mdoc_macro(const char *macro, const char *words);
/* One line that is shown as it stands, as code is. */
void dawn_mdoc_code(const char *line);
/* A line within .Bd -literal and .Ed. */
void dawn_mdoc_line(const char *line);
/* A list with an entry for each term; the text of an entry follows its head. */
void dawn_mdoc_list(void);
void dawn_mdoc_entry(const char *term);
void dawn_mdoc_list_end(void);
/* ", "-parted names of pages, as "dawnlow 1". */
void dawn_mdoc_see(const char *const *pages);

#endif
