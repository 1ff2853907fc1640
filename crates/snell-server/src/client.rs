//! The editor's own process: a server whose editor is gone ends, even where somebody else still holds the pipe to it.

use std::time::Duration;

/// How often it is looked whether the editor still runs.
const EVERY: Duration = Duration::from_secs(3);

/// Ends this process with status 1 once the editor's is gone. Where the system has no such question, the end of the
/// pipe has to do.
pub fn end_after(process: u32) {
    std::thread::spawn(move || {
        while runs(process) {
            std::thread::sleep(EVERY);
        }
        std::process::exit(1);
    });
}

/// Whether a process runs, be it somebody else's.
#[cfg(unix)]
fn runs(process: u32) -> bool {
    use rustix::io::Errno;
    use rustix::process::{Pid, test_kill_process};
    let known = i32::try_from(process).ok().and_then(Pid::from_raw);
    known.is_none_or(|known| test_kill_process(known) != Err(Errno::SRCH))
}

#[cfg(not(unix))]
fn runs(_: u32) -> bool {
    true
}
