//! Prints a made-up notebook: `cargo run -p snell-tests --bin generated-notebook -- 700`.

use std::io::{self, Write};
use std::process::ExitCode;

fn main() -> ExitCode {
    let rigs = std::env::args()
        .nth(1)
        .map_or(Ok(700), |rigs| rigs.parse::<usize>());
    let Ok(rigs) = rigs else {
        eprintln!("say how many rigs, such as 700");
        return ExitCode::from(2);
    };
    match io::stdout().write_all(snell_tests::generated_notebook(rigs).as_bytes()) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("{error}");
            ExitCode::from(2)
        }
    }
}
