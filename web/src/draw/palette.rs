//! Colours for each meaning: light, dark, and both in high contrast.

use plotters_backend::BackendColor;

use super::scene::Ink;

/// A set of colours.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Palette {
    /// Dark ink on paper.
    #[default]
    Light,
    /// Light ink on slate.
    Dark,
    /// Black on white with few tints, for forced colours.
    Contrast,
    /// White on black with few tints, for forced colours on a dark system.
    DarkContrast,
}

impl Palette {
    /// All there are.
    pub const ALL: [Self; 4] = [Self::Light, Self::Dark, Self::Contrast, Self::DarkContrast];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Light => "light",
            Self::Dark => "dark",
            Self::Contrast => "contrast",
            Self::DarkContrast => "dark-contrast",
        }
    }

    /// The colour of a meaning.
    ///
    /// Forward is blue and backward orange: that pair keeps apart for red-green and blue-yellow
    /// deficiencies alike, and their lightness differs as well.
    pub fn colour(self, ink: Ink) -> BackendColor {
        let [light, dark, contrast, dark_contrast] = match ink {
            Ink::Paper => [0xfbf9f4, 0x14191d, 0xffffff, 0x000000],
            Ink::Text => [0x1d2428, 0xeae6dc, 0x000000, 0xffffff],
            Ink::Quiet => [0x5c6569, 0x9da7ab, 0x333333, 0xd0d0d0],
            Ink::Guide => [0xd9d4c8, 0x323b41, 0xbbbbbb, 0x555555],
            Ink::Housing => [0x4a5357, 0xaab3b6, 0x000000, 0xffffff],
            Ink::Forward => [0x12609e, 0x6db7f2, 0x00408a, 0x8accff],
            Ink::Backward => [0xb84a00, 0xf59b52, 0x8a3a00, 0xffb066],
            Ink::Held => [0x1d2428, 0xeae6dc, 0x000000, 0xffffff],
            Ink::Free => [0x7a8387, 0x869196, 0x555555, 0xb4b4b4],
            Ink::Fight => [0xa8123e, 0xff7d9c, 0xa00030, 0xff9ab0],
            Ink::Lit => [0xf0c419, 0xe0b62a, 0xffd84d, 0x8a6a00],
            Ink::Metal => [0xe9e4d8, 0x232b31, 0xeeeeee, 0x1c1c1c],
            Ink::Power => [0x9fd3bd, 0x2c6b57, 0xd0d0d0, 0x484848],
            Ink::Round => [0xd9a9e0, 0x84479a, 0xffffff, 0x000000],
        };
        let hex: u32 = match self {
            Self::Light => light,
            Self::Dark => dark,
            Self::Contrast => contrast,
            Self::DarkContrast => dark_contrast,
        };
        let [_, red, green, blue] = hex.to_be_bytes();
        BackendColor {
            alpha: 1.0,
            rgb: (red, green, blue),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const INKS: [Ink; 7] = [
        Ink::Text,
        Ink::Quiet,
        Ink::Housing,
        Ink::Forward,
        Ink::Backward,
        Ink::Held,
        Ink::Fight,
    ];

    /// W3C, Web Content Accessibility Guidelines 2.2, definition of relative luminance.
    fn luminance(colour: BackendColor) -> f64 {
        let (red, green, blue) = colour.rgb;
        let linear = |part: u8| {
            let part = f64::from(part) / 255.0;
            if part <= 0.04045 {
                part / 12.92
            } else {
                ((part + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue)
    }

    /// W3C, Web Content Accessibility Guidelines 2.2, criteria 1.4.3 (4.5 to 1 for text) and, in
    /// forced colours, 1.4.6 (7 to 1).
    #[test]
    fn what_words_and_lines_are_written_in_can_be_read_on_paper() {
        for (palette, least) in [
            (Palette::Light, 4.5),
            (Palette::Dark, 4.5),
            (Palette::Contrast, 7.0),
            (Palette::DarkContrast, 7.0),
        ] {
            let paper = luminance(palette.colour(Ink::Paper));
            for ink in INKS {
                let written = luminance(palette.colour(ink));
                let ratio = (written.max(paper) + 0.05) / (written.min(paper) + 0.05);
                assert!(ratio >= least, "{palette:?} {ink:?}: {ratio:.2}");
            }
        }
    }
}
