//! The declarations that the page is checked against are those of the Rust types.

use std::fs;

use anyhow::{Result, ensure};
use levertrain_tests::files::root;
use levertrain_web::boundary::declarations::declarations;

/// Set to write the declarations instead of comparing them.
const WRITE: &str = "LEVERTRAIN_WRITE_TYPES";

#[test]
fn the_declarations_are_those_of_the_types() -> Result<()> {
    let file = root().join("web/src/boundary/types.d.ts");
    let made = declarations();
    if std::env::var_os(WRITE).is_some() {
        fs::write(&file, &made)?;
    }
    let kept = fs::read_to_string(&file)?;
    ensure!(
        kept == made,
        "{} is out of date: run this test with {WRITE}=1",
        file.display()
    );
    Ok(())
}
