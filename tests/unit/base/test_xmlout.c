/* XML that cannot come out ill-formed. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "../../support/comma_locale.h"
#include "../../support/written.h"
#include "base/xmlout.h"

static struct written written;
static struct dawn_xmlout xml;

static void start(void)
{
    written_start(&written);
    dawn_xmlout_begin(&xml, written.stream);
}

static void elements_nest_and_close(void **state)
{
    (void)state;
    start();
    dawn_xmlout_open(&xml, "figure");
    dawn_xmlout_attribute(&xml, "id", "night-%d", 3);
    dawn_xmlout_element(&xml, "figcaption", "Low");
    dawn_xmlout_leaf(&xml, "path");
    dawn_xmlout_attribute(&xml, "d", "M%.1f 2", 1.25 + 0.05);
    dawn_xmlout_close(&xml);
    dawn_xmlout_element(&xml, "td", NULL);
    dawn_xmlout_line(&xml);
    dawn_xmlout_close(&xml);
    assert_int_equal(xml.depth, 0);
    assert_false(xml.failed);
    written_is(&written, "<figure id=\"night-3\"><figcaption>Low</figcaption><path d=\"M1.3 2\"/>"
                         "<td></td>\n</figure>");
}

/* The five characters of XML 1.0, section 2.4, that mean something else there; the apostrophe only
 * within attributes in apostrophes, of which there are none. */
static void markup_in_texts_is_text(void **state)
{
    (void)state;
    start();
    dawn_xmlout_open(&xml, "p");
    dawn_xmlout_attribute(&xml, "title", "%s", "\"a\" & <b>'s");
    dawn_xmlout_text(&xml, "%s", "]]> & </p><script>");
    dawn_xmlout_close(&xml);
    written_is(&written, "<p title=\"&quot;a&quot; &amp; &lt;b&gt;'s\">]]&gt; &amp; "
                         "&lt;/p&gt;&lt;script&gt;</p>");
}

/* XML 1.0, production 2: no control characters but tab and line ends, no U+FFFE, no U+FFFF; and
 * UTF-8 as RFC 3629 has it. */
static void what_xml_has_no_place_for_is_replaced(void **state)
{
    (void)state;
    start();
    dawn_xmlout_open(&xml, "p");
    dawn_xmlout_text(&xml, "a\x01"
                           "b\x1B"
                           "c\td\n\xC3\xA9 \xC3( \xED\xA0\x80 \xEF\xBF\xBE.");
    dawn_xmlout_close(&xml);
    written_is(&written, "<p>a\xEF\xBF\xBD"
                         "b\xEF\xBF\xBD"
                         "c\td\n\xC3\xA9 \xEF\xBF\xBD( "
                         "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD \xEF\xBF\xBD.</p>");
}

static void numbers_have_a_point_everywhere(void **state)
{
    (void)state;
    assert_true(comma_locale());
    start();
    dawn_xmlout_open(&xml, "p");
    dawn_xmlout_attribute(&xml, "x", "%.2f", 0.25);
    dawn_xmlout_text(&xml, "%.1f", -1.5);
    dawn_xmlout_close(&xml);
    plain_locale();
    written_is(&written, "<p x=\"0.25\">-1.5</p>");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(elements_nest_and_close),
        cmocka_unit_test(markup_in_texts_is_text),
        cmocka_unit_test(what_xml_has_no_place_for_is_replaced),
        cmocka_unit_test(numbers_have_a_point_everywhere),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
