//! A JSON value as text.

use super::value::Value;

impl Value {
    /// The text that reads as this value, in one line.
    pub(crate) fn text(&self) -> String {
        let mut text = String::new();
        self.write(&mut text);
        text
    }

    fn write(&self, text: &mut String) {
        let between = |text: &mut String, at: usize| text.push_str(if at > 0 { ", " } else { "" });
        match self {
            Self::Text(words) => write_words(text, words),
            Self::List(values) => {
                text.push('[');
                for (at, value) in values.iter().enumerate() {
                    between(text, at);
                    value.write(text);
                }
                text.push(']');
            }
            Self::Object(fields) => {
                text.push('{');
                for (at, (name, value)) in fields.iter().enumerate() {
                    between(text, at);
                    write_words(text, name);
                    text.push_str(": ");
                    value.write(text);
                }
                text.push('}');
            }
            // What is quoted in messages is JSON, too.
            _ => text.push_str(&self.quoted()),
        }
    }
}

fn write_words(text: &mut String, words: &str) {
    text.push('"');
    for letter in words.chars() {
        match letter {
            '"' | '\\' => text.extend(['\\', letter]),
            letter if letter < ' ' => text.push_str(&format!("\\u{:04x}", u32::from(letter))),
            letter => text.push(letter),
        }
    }
    text.push('"');
}

#[cfg(test)]
mod tests {
    use super::super::strict;

    /// What is written reads as the same value, whatever signs are in its texts.
    #[test]
    fn what_is_written_is_read_again() {
        let texts = [
            r#"{"a": [1, -2, 0.25, 1e-9, 1e300, true, false, null], "b": {}, "c": []}"#,
            r#"{"quote \" and \\": "line\nbreak \u0007 \ud83d\ude00 é"}"#,
        ];
        for text in texts {
            let value = strict(text).unwrap_or_else(|problem| panic!("{problem}"));
            assert_eq!(strict(&value.text()), Ok(value));
        }
    }
}
