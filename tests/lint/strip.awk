# Prints C sources as FILE:LINE:TEXT without comments, and, with -v texts=blank, with the insides of
# string and character constants blanked: what is left is what the compiler acts on.
FNR == 1 { state = "code" }
{
    out = ""
    n = length($0)
    for (i = 1; i <= n; i++) {
        c = substr($0, i, 1)
        two = substr($0, i, 2)
        if (state == "comment") {
            if (two == "*/") { state = "code"; i++; out = out " " }
        } else if (state == "code") {
            if (two == "/*") { state = "comment"; i++ }
            else if (two == "//") break
            else { if (c == "\"" || c == "'") state = c; out = out c }
        } else { # inside a constant that ends with state
            if (c == "\\") { if (texts != "blank") out = out two; i++ }
            else if (c == state) { state = "code"; out = out c }
            else if (texts != "blank") out = out c
        }
    }
    if (state != "comment") state = "code"
    print FILENAME ":" FNR ":" out
}
