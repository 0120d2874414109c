//! Archives, read by somebody else's reader.

use std::io::{Cursor, Read};

use anyhow::{Result, ensure};
use levertrain_packer::Archive;
use proptest::prelude::*;
use zip::{CompressionMethod, ZipArchive};

fn packed(files: &[(String, Vec<u8>)]) -> Result<Vec<u8>> {
    let mut archive = Archive::default();
    for (name, content) in files {
        archive.add(name, content)?;
    }
    Ok(archive.finish()?)
}

/// What a reader finds: every file with its content, whose checksum it looks at.
fn unpacked(archive: &[u8]) -> Result<Vec<(String, Vec<u8>, CompressionMethod)>> {
    let mut archive = ZipArchive::new(Cursor::new(archive))?;
    (0..archive.len())
        .map(|at| {
            let mut file = archive.by_index(at)?;
            let mut content = Vec::new();
            file.read_to_end(&mut content)?;
            let date = file
                .last_modified()
                .map(|time| (time.year(), time.month(), time.day()));
            ensure!(date == Some((1980, 1, 1)), "{date:?}");
            Ok((file.name()?.into_owned(), content, file.compression()))
        })
        .collect()
}

/// Catches a name in another code, a file that only grows by being compressed, and an archive of nothing that is none.
#[test]
fn names_and_contents_come_back() -> Result<()> {
    let files = [
        ("lesson.html".to_owned(), b"<p>".repeat(5000)),
        ("words/Wörter.ftl".to_owned(), "ä".repeat(99).into_bytes()),
        ("empty".to_owned(), Vec::new()),
        ("dense".to_owned(), vec![7]),
    ];
    let archive = packed(&files)?;
    let found = unpacked(&archive)?;
    ensure!(found.len() == files.len());
    for ((name, content, _), (wanted, right)) in found.iter().zip(&files) {
        ensure!(name == wanted && content == right, "{name}");
    }
    let methods: Vec<_> = found.iter().map(|(_, _, method)| *method).collect();
    let (deflated, stored) = (CompressionMethod::Deflated, CompressionMethod::Stored);
    ensure!(
        methods == [deflated, deflated, stored, stored],
        "{methods:?}"
    );
    ensure!(archive.len() < 1200, "{} bytes", archive.len());
    ensure!(packed(&files)? == archive, "not the same once more");
    ensure!(unpacked(&packed(&[])?)?.is_empty());
    Ok(())
}

proptest! {
    #![proptest_config(levertrain_tests::generate::settings(60))]

    /// Catches contents that do not come back.
    #[test]
    fn any_files_come_back(contents in prop::collection::vec(prop::collection::vec(any::<u8>(), 0..3000), 0..6)) {
        let files: Vec<(String, Vec<u8>)> = contents
            .into_iter()
            .enumerate()
            .map(|(at, content)| (format!("folder/{at}"), content))
            .collect();
        let archive = packed(&files).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let found = unpacked(&archive).map_err(|error| TestCaseError::fail(error.to_string()))?;
        let found: Vec<_> = found.into_iter().map(|(name, content, _)| (name, content)).collect();
        prop_assert_eq!(found, files);
    }
}
