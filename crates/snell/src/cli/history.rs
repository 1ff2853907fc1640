//! Options of the commands that tell what became of rigs.

use crate::comparison::Form as ComparisonForm;
use crate::season::Form as SeasonForm;
use clap::Args;
use std::path::PathBuf;

/// `snell compare`.
#[derive(Debug, Args)]
#[command(
    after_help = "A and B are each a file, a folder, FILE:RIG, a git revision, REV:FILE or REV:FILE:RIG; A..B \
    is A and B, A...B what B changed since the two parted. With A alone, a path is held against what was committed last, and a revision against the working tree; with neither, \
    the working tree against what was committed last. Exit status 1 says that something changed."
)]
pub struct Compare {
    /// The earlier state
    #[arg(value_name = "A")]
    pub was: Option<String>,
    /// The later state
    #[arg(value_name = "B")]
    pub now: Option<String>,
    /// Hold what is staged against what was committed last, or against A
    #[arg(long, conflicts_with = "now")]
    pub staged: bool,
    /// The form of what changed
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: ComparisonForm,
    /// Be git's external diff: the words that follow are those that git gives it
    #[arg(
        long,
        value_name = "GIT",
        num_args = 1..,
        allow_hyphen_values = true,
        conflicts_with_all = ["was", "now", "staged", "git_text"]
    )]
    pub git_diff: Option<Vec<String>>,
    /// Be git's textconv: print the rigs of a file, evaluated, in lines that can be compared
    #[arg(long, value_name = "FILE", conflicts_with_all = ["was", "now", "staged"])]
    pub git_text: Option<PathBuf>,
}

/// `snell season`.
#[derive(Debug, Args)]
pub struct Season {
    /// The file or folder whose rigs are told; it may be gone by now
    #[arg(default_value = ".", value_name = "PATH")]
    pub path: PathBuf,
    /// Tell only this rig, by any name that it had; as often as wanted
    #[arg(long = "rig", value_name = "RIG")]
    pub rigs: Vec<String>,
    /// A measure whose way is followed, as often as wanted; of a fly by its name or place, such as `point.rides` [default: total tippet weight point.rides]
    #[arg(long = "measure", value_name = "MEASURE")]
    pub measures: Vec<String>,
    /// The form of the season
    #[arg(long, value_enum, default_value_t, value_name = "FORM")]
    pub form: SeasonForm,
    /// Tell as well who made each change
    #[arg(long)]
    pub who: bool,
    /// The revision that the season ends with
    #[arg(long, default_value = "HEAD", value_name = "REVISION")]
    pub until: String,
}
