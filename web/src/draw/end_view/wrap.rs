//! Breaking what a caption says into lines.

use crate::draw::{names, text};

/// A phrase of a caption.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Phrase {
    /// What it says.
    pub text: String,
    /// The longest that could stand in its place: breaks and room go by that, so that nothing
    /// jumps when the text changes.
    pub longest: String,
    /// What joins it to a phrase before it on the same line.
    pub joint: &'static str,
}

impl Phrase {
    /// A phrase that never changes.
    pub fn fixed(text: impl Into<String>, joint: &'static str) -> Self {
        let text = text.into();
        Self {
            longest: text.clone(),
            text,
            joint,
        }
    }
}

/// The lettering of a paragraph and the width it must keep to, in CSS pixels.
#[derive(Debug, Clone, Copy)]
pub struct Column {
    /// Font size.
    pub size: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Greatest width of a line.
    pub limit: f64,
    /// Room kept free in the first line.
    pub indent: f64,
}

impl Column {
    fn width(&self, text: &str) -> f64 {
        text::width(text, self.size, self.bold)
    }

    /// The phrases, as many to a line as fit, and the room each line needs.
    pub fn lines(&self, phrases: &[Phrase]) -> Vec<(String, f64)> {
        let mut lines: Vec<(String, String)> = Vec::new();
        for phrase in phrases {
            let limit = self.limit_of(lines.len().saturating_sub(1));
            if let Some((line, reserve)) = lines.last_mut() {
                let joined = format!("{reserve}{}{}", phrase.joint, phrase.longest);
                if self.width(&joined) <= limit {
                    *reserve = joined;
                    if !phrase.text.is_empty() {
                        *line = format!("{line}{}{}", phrase.joint, phrase.text);
                    }
                    continue;
                }
            }
            lines.push((phrase.text.clone(), phrase.longest.clone()));
        }
        let room = |(index, (line, reserve)): (usize, (String, String))| {
            let limit = self.limit_of(index);
            let line = self.shortened(line, limit);
            let width = self.width(&line).max(self.width(&reserve));
            (line, width.min(limit) + self.limit - limit)
        };
        lines.into_iter().enumerate().map(room).collect()
    }

    fn limit_of(&self, line: usize) -> f64 {
        match line {
            0 => self.limit - self.indent,
            _ => self.limit,
        }
    }

    /// A line cut to a width.
    fn shortened(&self, line: String, limit: f64) -> String {
        if self.width(&line) <= limit {
            return line;
        }
        let mut short = line;
        while !short.is_empty() && self.width(&names::cut(&short)) > limit {
            short.pop();
        }
        names::cut(&short)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn texts(limit: f64, phrases: &[Phrase]) -> Vec<String> {
        let column = Column {
            size: 10.0,
            bold: false,
            limit,
            indent: 0.0,
        };
        let lines = column.lines(phrases);
        assert!(lines.iter().all(|(_, room)| *room <= limit));
        lines.into_iter().map(|(text, _)| text).collect()
    }

    #[test]
    fn a_line_takes_as_many_phrases_as_fit() {
        let phrases = [Phrase::fixed("Ring", ""), Phrase::fixed("80 teeth", ", ")];
        assert_eq!(texts(100.0, &phrases), ["Ring, 80 teeth"]);
        assert_eq!(texts(40.0, &phrases), ["Ring", "80 teeth"]);
        assert_eq!(texts(34.0, &phrases), ["Ring", "80 te…"]);
    }

    #[test]
    fn lines_break_alike_whatever_they_say() {
        let say = |text: &str| {
            let word = Phrase {
                text: text.to_owned(),
                longest: "backward".to_owned(),
                joint: "",
            };
            texts(60.0, &[word, Phrase::fixed("1 rev/min", ", ")]).len()
        };
        assert_eq!(say("free"), say("backward"));
    }
}
