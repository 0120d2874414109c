//! The string literals of Rust sources.

/// A string literal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Literal {
    /// What stands in it.
    pub text: String,
    /// Whether it stands first of several things in brackets, as the name of a variable does.
    pub leads: bool,
}

/// The string literals of a source, without those of comments, attributes, byte strings and of the
/// tests at its end.
pub fn rust_literals(text: &str) -> Vec<Literal> {
    let code = match text.find("mod tests {") {
        Some(tests) => text.get(..tests).unwrap_or_default(),
        None => text,
    };
    let mut reader = Reader { rest: code };
    let mut literals = Vec::new();
    while let Some(next) = reader.rest.chars().next() {
        if reader.rest.starts_with("//") {
            reader.skip_to("\n");
        } else if reader.rest.starts_with("#[") || reader.rest.starts_with("#![") {
            reader.attribute();
        } else if reader.rest.starts_with("b\"") {
            reader.take(1);
            reader.string();
        } else if next == '"' {
            let before = code.len() - reader.rest.len();
            let before = code.get(..before).unwrap_or_default().trim_end();
            let text = reader.string();
            let leads = before.ends_with('(') && reader.rest.trim_start().starts_with(',');
            literals.push(Literal { text, leads });
        } else if next == '\'' {
            reader.character();
        } else {
            reader.take(next.len_utf8());
        }
    }
    literals
}

struct Reader<'a> {
    rest: &'a str,
}

impl<'a> Reader<'a> {
    /// Takes so many bytes off.
    fn take(&mut self, bytes: usize) -> &'a str {
        let (taken, rest) = self.rest.split_at_checked(bytes).unwrap_or((self.rest, ""));
        self.rest = rest;
        taken
    }

    fn skip_to(&mut self, end: &str) {
        self.take(self.rest.find(end).unwrap_or(self.rest.len()));
    }

    /// A string, up to its second quote, with what its escapes stand for where that is no letter.
    fn string(&mut self) -> String {
        self.take(1);
        let mut literal = String::new();
        while let Some(next) = self.rest.chars().next() {
            self.take(next.len_utf8());
            match next {
                '"' => break,
                '\\' => self.escape(&mut literal),
                other => literal.push(other),
            }
        }
        literal
    }

    /// What follows a backslash. A line that ends in one goes on where the next one's text begins.
    fn escape(&mut self, literal: &mut String) {
        let Some(next) = self.rest.chars().next() else {
            return;
        };
        self.take(next.len_utf8());
        match next {
            '\n' => self.rest = self.rest.trim_start(),
            'u' => {
                self.skip_to("}");
                self.take(1);
            }
            'n' | 'r' | 't' => literal.push(' '),
            other => literal.push(other),
        }
    }

    /// A character, or the sign of a lifetime, which has no second one.
    fn character(&mut self) {
        self.take(1);
        if self.rest.starts_with('\\') {
            self.take(2);
            self.skip_to("'");
            self.take(1);
            return;
        }
        let length = self.rest.chars().next().map_or(0, char::len_utf8);
        if self
            .rest
            .get(length..)
            .is_some_and(|rest| rest.starts_with('\''))
        {
            self.take(length + 1);
        }
    }

    /// An attribute, strings in it included.
    fn attribute(&mut self) {
        let mut depth = 0_usize;
        while let Some(next) = self.rest.chars().next() {
            if next == '"' {
                self.string();
                continue;
            }
            self.take(next.len_utf8());
            match next {
                '[' => depth += 1,
                ']' if depth == 1 => return,
                ']' => depth -= 1,
                _ => {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::rust_literals;

    #[test]
    fn only_strings_are_literals() {
        let text = "// \"a\"\n#[doc = \"[b\"]\nfn f<'a>(x: &'a str) { g('\"', '\\'', b\"c\", \
            \"d \\\"e\\\" \\u{2212}{x}\\\n   f\", \"g\") }\n#[cfg(test)]\nmod tests { \"h\" }";
        let literals = rust_literals(text).into_iter();
        let texts: Vec<String> = literals.map(|literal| literal.text).collect();
        assert_eq!(texts, ["d \"e\" {x}f", "g"]);
    }

    #[test]
    fn names_of_variables_lead() {
        let literals = rust_literals("say(\"a\", &[(\"b\", \"c\")]); (\n \"d\" ,\n e)").into_iter();
        let leads: Vec<bool> = literals.map(|literal| literal.leads).collect();
        assert_eq!(leads, [true, true, false, true]);
    }
}
