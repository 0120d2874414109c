//! The string literals of the page's scripts, each with where it stands.

/// A string literal, or the fixed part of a template.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScriptLiteral {
    /// What stands in it; `…` for each value that a template puts in.
    pub text: String,
    /// The bracket that it stands in, with the code before that: `h(`, `replaceChildren(`, ` = {`.
    pub within: String,
    /// The same of the bracket around that one.
    pub around: String,
    /// How many things stand before it there.
    pub place: usize,
    /// The literal that stands first there, if one does.
    pub first: String,
    /// The code before it since the last comma or bracket, such as `class:`.
    pub before: String,
    /// The code after it, up to a few letters.
    pub after: String,
}

/// How much of the code around a literal is kept.
const AROUND: usize = 40;

/// The literals of a script, without comments and regular expressions.
pub fn script_literals(text: &str) -> Vec<ScriptLiteral> {
    let letters: Vec<char> = text.chars().collect();
    let mut reader = Reader {
        letters: &letters,
        at: 0,
        found: Vec::new(),
    };
    reader.code(None);
    reader.found
}

struct Reader<'a> {
    letters: &'a [char],
    at: usize,
    found: Vec<ScriptLiteral>,
}

/// An open bracket.
#[derive(Default)]
struct Bracket {
    within: String,
    around: String,
    place: usize,
    first: String,
    before: String,
}

impl Reader<'_> {
    fn next(&self) -> Option<char> {
        self.letters.get(self.at).copied()
    }

    fn begins(&self, sign: &str) -> bool {
        let rest = self.letters.get(self.at..).unwrap_or_default();
        let mut rest = rest.iter().copied();
        sign.chars().all(|letter| rest.next() == Some(letter))
    }

    /// Code up to a closing brace of its own, which is taken, or to the end.
    fn code(&mut self, end: Option<char>) {
        let mut open = vec![Bracket::default()];
        while let Some(letter) = self.next() {
            let top = open.len() - 1;
            match letter {
                '/' if self.begins("//") => self.skip_past("\n"),
                '/' if self.begins("/*") => self.skip_past("*/"),
                '/' if begins_expression(&open[top].before) => {
                    self.expression();
                    open[top].before.push('/');
                }
                '"' | '\'' | '`' => {
                    let text = match letter {
                        '`' => self.template(),
                        _ => self.string(letter),
                    };
                    let after = self.letters.get(self.at..).unwrap_or_default();
                    let bracket = &mut open[top];
                    let before = format!("{}\"{text}\"", bracket.before);
                    if bracket.place == 0 && bracket.first.is_empty() {
                        bracket.first.clone_from(&text);
                    }
                    self.found.push(ScriptLiteral {
                        text,
                        within: bracket.within.clone(),
                        around: bracket.around.clone(),
                        place: bracket.place,
                        first: bracket.first.clone(),
                        before: bracket.before.trim().to_owned(),
                        after: after.iter().take(AROUND).collect(),
                    });
                    bracket.before = before;
                }
                '(' | '[' | '{' => {
                    self.at += 1;
                    let before: Vec<char> = open[top].before.chars().collect();
                    let start = before.len().saturating_sub(AROUND);
                    let mut within: String = before[start..].iter().collect();
                    within.push(letter);
                    let around = open[top].within.clone();
                    open.push(Bracket {
                        within,
                        around,
                        ..Bracket::default()
                    });
                }
                ')' | ']' | '}' => {
                    self.at += 1;
                    if top == 0 {
                        if end == Some(letter) {
                            return;
                        }
                        continue;
                    }
                    open.pop();
                    open[top - 1].before.push(letter);
                }
                ',' | ';' => {
                    self.at += 1;
                    open[top].place += 1;
                    open[top].before.clear();
                }
                other => {
                    self.at += 1;
                    open[top].before.push(other);
                }
            }
        }
    }

    fn skip_past(&mut self, end: &str) {
        while self.at < self.letters.len() && !self.begins(end) {
            self.at += 1;
        }
        self.at += end.chars().count();
    }

    fn string(&mut self, quote: char) -> String {
        self.at += 1;
        let mut text = String::new();
        while let Some(letter) = self.next() {
            self.at += 1;
            match letter {
                '\\' => self.escape(),
                _ if letter == quote => break,
                other => text.push(other),
            }
        }
        text
    }

    /// What follows a backslash says no word.
    fn escape(&mut self) {
        if self.begins("u{") {
            self.skip_past("}");
        } else {
            self.at += if self.begins("u") { 5 } else { 1 };
        }
    }

    fn template(&mut self) -> String {
        self.at += 1;
        let mut text = String::new();
        while let Some(letter) = self.next() {
            if self.begins("${") {
                self.at += 2;
                self.code(Some('}'));
                text.push('…');
                continue;
            }
            self.at += 1;
            match letter {
                '\\' => self.escape(),
                '`' => break,
                other => text.push(other),
            }
        }
        text
    }

    /// A regular expression.
    fn expression(&mut self) {
        self.at += 1;
        let mut in_class = false;
        while let Some(letter) = self.next() {
            self.at += 1;
            match letter {
                '\\' => self.at += 1,
                '[' => in_class = true,
                ']' => in_class = false,
                '/' if !in_class => return,
                _ => {}
            }
        }
    }
}

/// Whether a slash after this code begins a regular expression rather than divides.
fn begins_expression(before: &str) -> bool {
    let before = before.trim_end();
    before.is_empty() || before.ends_with(['=', ':', '?', '&', '|', '!', '>', '<', '+'])
}

#[cfg(test)]
mod tests {
    use super::script_literals;

    #[test]
    fn literals_are_found_with_where_they_stand() {
        let script = "// \"a\"\n/* 'b' */ h('c', { class: x ? \"d\" : 'e f', \"g\": 1 }, \
             `h ${say(\"i\")} j\\u2212`, 4 / 2, k.replace(/\"[/\"]/g, \"l\"), it === \"m\");";
        let found = script_literals(script);
        let found: Vec<_> = found
            .iter()
            .map(|one| {
                (
                    &*one.text,
                    one.within.trim(),
                    one.place,
                    &*one.before,
                    one.after.starts_with(':'),
                )
            })
            .collect();
        let expected = [
            ("c", "h(", 0, "", false),
            ("d", "{", 0, "class: x ?", false),
            ("e f", "{", 0, "class: x ? \"d\" :", false),
            ("g", "{", 1, "", true),
            ("i", "say(", 0, "", false),
            ("h … j", "h(", 2, "", false),
            ("l", "k.replace(", 1, "", false),
            ("m", "h(", 5, "it ===", false),
        ];
        assert_eq!(found, expected);
    }
}
