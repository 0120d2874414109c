//! What the page shows, as one value: tests compare it before and after.

use serde::Deserialize;

/// Everything in the page that a change could change.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct Seen {
    /// Name of the scenario in the picker.
    pub scenario: Option<String>,
    /// Its file stem; empty for a file of the user's own.
    pub stem: Option<String>,
    /// Ids of the elements whose switches are on, in alphabetical order.
    pub applied: Vec<String>,
    /// The range whose button is pressed.
    pub range: Option<String>,
    /// The ratio as it is written.
    pub ratio: Option<String>,
    /// The ratio as a fraction.
    pub exact: Option<String>,
    /// The direction of the output.
    pub direction: Option<String>,
    /// The state in a word or two.
    pub state: Option<String>,
    /// The sentences under the answer.
    pub sentences: Vec<String>,
    /// The line above the answer: what is applied, or previewed.
    pub kicker: Option<String>,
    /// Whether the answer is that of a drag that has not ended.
    pub preview: bool,
    /// The input speed in the field, in rev/min.
    pub speed: Option<String>,
    /// The pixels of the half-section.
    pub section: String,
    /// The pixels of the lever diagram.
    pub lever: String,
}

/// A drawing, by what can be measured in its pixels.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(rename_all = "camelCase", deny_unknown_fields)]
pub struct Canvas {
    /// Size and pixels in one text.
    pub hash: String,
    /// Width and height in its own pixels.
    pub size: (f64, f64),
    /// Width and height on the page, in CSS pixels.
    #[serde(rename = "box")]
    pub on_page: (f64, f64),
    /// How many different colours there are.
    pub colours: usize,
    /// Share of the most common colour.
    pub ground: f64,
    /// From 0, all black, to 1, all white.
    pub lightness: f64,
}
