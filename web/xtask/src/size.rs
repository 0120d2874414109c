//! How much of a file goes over the wire.

use std::fmt;
use std::io::{Read, Write};
use std::path::Path;

use anyhow::{Context, Result, bail};
use flate2::{Compression, read::GzEncoder};

/// Sizes of one file in bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Sizes {
    /// As it lies on the disk.
    pub raw: usize,
    /// After gzip at its best setting, which every static host can do.
    pub gzip: usize,
    /// After brotli at its best setting.
    pub brotli: usize,
}

impl Sizes {
    /// Whether a file is small enough as any host sends it: after gzip.
    ///
    /// # Errors
    /// It is not; the message gives both figures.
    pub fn check(&self, file: &str, limit: usize) -> Result<()> {
        if self.gzip > limit {
            bail!(
                "{file} weighs {} kB after gzip; the limit is {}",
                kb(self.gzip),
                kb(limit)
            );
        }
        Ok(())
    }
}

impl fmt::Display for Sizes {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let Self { raw, gzip, brotli } = *self;
        write!(
            f,
            "{} kB raw, {} kB gzip, {} kB brotli",
            kb(raw),
            kb(gzip),
            kb(brotli)
        )
    }
}

/// Compresses a file in memory and says how large it is each way.
///
/// # Errors
/// The file cannot be read.
pub fn measure(file: &Path) -> Result<Sizes> {
    let content = std::fs::read(file).with_context(|| format!("cannot read {}", file.display()))?;
    let mut gzip = Vec::new();
    GzEncoder::new(&content[..], Compression::best()).read_to_end(&mut gzip)?;
    Ok(Sizes {
        raw: content.len(),
        gzip: gzip.len(),
        brotli: brotli(&content)?.len(),
    })
}

fn brotli(content: &[u8]) -> Result<Vec<u8>> {
    const BUFFER: usize = 1 << 16;
    const BEST_QUALITY: u32 = 11;
    const LARGEST_USUAL_WINDOW: u32 = 22;
    let mut compressed = Vec::new();
    let mut writer =
        brotli::CompressorWriter::new(&mut compressed, BUFFER, BEST_QUALITY, LARGEST_USUAL_WINDOW);
    writer.write_all(content)?;
    drop(writer);
    Ok(compressed)
}

/// Kilobytes of 1000 bytes, to one decimal.
fn kb(bytes: usize) -> String {
    format!("{}.{}", bytes / 1000, bytes % 1000 / 100)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dist::scratch;

    #[test]
    fn compressed_sizes_are_those_of_streams_that_give_the_content_back() -> Result<()> {
        let file = scratch("size")?.join("engine.wasm");
        let content = b"lever and train ".repeat(4000);
        std::fs::write(&file, &content)?;
        let sizes = measure(&file)?;
        assert_eq!(sizes.raw, content.len());
        assert!(sizes.gzip < 1000 && sizes.brotli < 1000, "{sizes}");

        let mut restored = Vec::new();
        brotli::Decompressor::new(&brotli(&content)?[..], 4096).read_to_end(&mut restored)?;
        assert_eq!(restored, content);
        Ok(())
    }

    #[test]
    fn the_limit_is_on_the_compressed_size() {
        let limit = 300_000;
        let sizes = |gzip| Sizes {
            raw: 10 * limit,
            gzip,
            brotli: 0,
        };
        assert!(sizes(limit).check("engine", limit).is_ok());
        assert!(sizes(limit + 1).check("engine", limit).is_err());
    }
}
