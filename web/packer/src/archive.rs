//! The archive as bytes, after PKWARE's APPNOTE.TXT 6.3: sections 4.3.7 (a file's header), 4.3.12 (directory) and 4.3.16 (end).

use std::error::Error;
use std::fmt;

use miniz_oxide::deflate::compress_to_vec;

/// How hard to compress, from 0 to 10: more hardly makes it smaller.
const LEVEL: u8 = 6;

const FILE: u32 = 0x0403_4b50;
const ENTRY: u32 = 0x0201_4b50;
const END: u32 = 0x0605_4b50;

/// The version of the format that unpacking needs, 2.0.
const VERSION: u16 = 20;
/// Names are UTF-8.
const UTF_8: u16 = 1 << 11;
const STORED: u16 = 0;
const DEFLATED: u16 = 8;
/// The first day that the format knows, at midnight: 1 January 1980.
const TIME: u16 = 0;
const DATE: u16 = 1 << 5 | 1;

/// Something does not fit the format's fields: four gigabytes, or 65 535 files or letters of a name.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TooLarge;

impl fmt::Display for TooLarge {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("too large for an archive")
    }
}

impl Error for TooLarge {}

/// Files in one.
#[derive(Debug, Default)]
pub struct Archive {
    bytes: Vec<u8>,
    directory: Vec<u8>,
    files: u16,
}

impl Archive {
    /// Puts a file in, under a path with `/`.
    ///
    /// # Errors
    /// It does not fit.
    pub fn add(&mut self, name: &str, content: &[u8]) -> Result<(), TooLarge> {
        let deflated = compress_to_vec(content, LEVEL);
        // What is compressed already only grows.
        let (method, body) = if deflated.len() < content.len() {
            (DEFLATED, &*deflated)
        } else {
            (STORED, content)
        };
        let start = size(self.bytes.len())?;
        let mut facts = Vec::new();
        for value in [VERSION, UTF_8, method, TIME, DATE] {
            facts.extend(value.to_le_bytes());
        }
        for value in [checksum(content), size(body.len())?, size(content.len())?] {
            facts.extend(value.to_le_bytes());
        }
        let length = u16::try_from(name.len()).map_err(|_| TooLarge)?;
        facts.extend(length.to_le_bytes());
        let files = self.files.checked_add(1).ok_or(TooLarge)?;
        size(self.bytes.len() + body.len())?;

        self.files = files;
        self.bytes.extend(FILE.to_le_bytes());
        self.bytes.extend(&facts);
        // Nothing more of the file.
        self.bytes.extend(0_u16.to_le_bytes());
        self.bytes.extend(name.as_bytes());
        self.bytes.extend(body);

        self.directory.extend(ENTRY.to_le_bytes());
        self.directory.extend(VERSION.to_le_bytes());
        self.directory.extend(&facts);
        // No more of the file, no comment, the first disk, and no attributes of either kind.
        for _ in 0..4 {
            self.directory.extend(0_u16.to_le_bytes());
        }
        self.directory.extend(0_u32.to_le_bytes());
        self.directory.extend(start.to_le_bytes());
        self.directory.extend(name.as_bytes());
        Ok(())
    }

    /// The archive with all that was put in.
    ///
    /// # Errors
    /// It does not fit.
    pub fn finish(mut self) -> Result<Vec<u8>, TooLarge> {
        let start = size(self.bytes.len())?;
        let length = size(self.directory.len())?;
        self.bytes.append(&mut self.directory);
        self.bytes.extend(END.to_le_bytes());
        // One disk.
        for value in [0, 0, self.files, self.files] {
            self.bytes.extend(value.to_le_bytes());
        }
        for value in [length, start] {
            self.bytes.extend(value.to_le_bytes());
        }
        self.bytes.extend(0_u16.to_le_bytes());
        Ok(self.bytes)
    }
}

fn size(length: usize) -> Result<u32, TooLarge> {
    u32::try_from(length).map_err(|_| TooLarge)
}

/// CRC-32 as the format has it (4.4.7): polynomial 0x04c11db7, told from its other end.
fn checksum(content: &[u8]) -> u32 {
    let mut table = [0_u32; 256];
    for (entry, byte) in table.iter_mut().zip(0_u32..) {
        *entry = (0..8).fold(byte, |rest, _| (rest >> 1) ^ (0xedb8_8320 * (rest & 1)));
    }
    let sum = content.iter().fold(u32::MAX, |rest, byte| {
        (rest >> 8) ^ table[usize::from(rest.to_le_bytes()[0] ^ byte)]
    });
    !sum
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_checksum_is_that_of_the_format() {
        // The check value of CRC-32 in the RevEng catalogue, and that of nothing [M].
        assert_eq!(checksum(b"123456789"), 0xcbf4_3926);
        assert_eq!(checksum(b""), 0);
    }
}
