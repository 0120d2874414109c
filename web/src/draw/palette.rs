//! Colours for each meaning, in light, dark and high contrast.

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
    /// Black on white with few tints, for forced colours and for print.
    Contrast,
}

impl Palette {
    /// The palette with this name.
    pub fn named(name: &str) -> Option<Self> {
        match name {
            "light" => Some(Self::Light),
            "dark" => Some(Self::Dark),
            "contrast" => Some(Self::Contrast),
            _ => None,
        }
    }

    /// The colour of a meaning.
    ///
    /// Forward is blue and backward orange: that pair keeps apart for red-green and blue-yellow
    /// deficiencies alike, and their lightness differs as well.
    pub fn colour(self, ink: Ink) -> BackendColor {
        let [light, dark, contrast] = match ink {
            Ink::Paper => [0xfbf9f4, 0x14191d, 0xffffff],
            Ink::Text => [0x1d2428, 0xeae6dc, 0x000000],
            Ink::Quiet => [0x5c6569, 0x9da7ab, 0x333333],
            Ink::Guide => [0xd9d4c8, 0x323b41, 0xbbbbbb],
            Ink::Housing => [0x4a5357, 0xaab3b6, 0x000000],
            Ink::Forward => [0x12609e, 0x6db7f2, 0x00408a],
            Ink::Backward => [0xb84a00, 0xf59b52, 0x8a3a00],
            Ink::Held => [0x1d2428, 0xeae6dc, 0x000000],
            Ink::Free => [0x7a8387, 0x869196, 0x555555],
            Ink::Fight => [0xa8123e, 0xff7d9c, 0xa00030],
            Ink::Lit => [0xf0c419, 0xe0b62a, 0xffd84d],
            Ink::Metal => [0xe9e4d8, 0x232b31, 0xeeeeee],
            Ink::Power => [0x9fd3bd, 0x2c6b57, 0xd0d0d0],
            Ink::Round => [0xd9a9e0, 0x84479a, 0xffffff],
        };
        let hex: u32 = match self {
            Self::Light => light,
            Self::Dark => dark,
            Self::Contrast => contrast,
        };
        let [_, red, green, blue] = hex.to_be_bytes();
        BackendColor {
            alpha: 1.0,
            rgb: (red, green, blue),
        }
    }
}
