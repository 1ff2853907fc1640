//! `snell draw`: rigs as pictures, in the terminal or as files.

use super::{Ended, Outcome, Session};
use crate::cli::Draw;
use crate::picked::{Picked, units};
use crate::scenes::Scenes;
use crate::terminal::{Stream, Terminal};
use crate::trouble::Trouble;
use crate::{drawing, sheet, write};
use snell_picture::{Medium, Scene, write as write_picture};
use snell_view::Drawn;
use std::collections::BTreeSet;
use std::io::Write;
use std::path::{Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// A path cannot be read, a rig is not there, or a picture cannot be written.
pub fn run(options: &Draw, session: &mut Session) -> Outcome {
    let file = options.out.as_deref().map(PictureFile::read).transpose()?;
    let picked = Picked::read(&options.rigs)?;
    let terminal = Terminal::of(Stream::Out, session.colour);
    let medium = if file.is_some() {
        Medium::Page
    } else {
        Medium::Cells(terminal.width)
    };
    let units = units(options.units);
    let wanted = |name: &str, file: &str| picked.takes(name, file);
    let drawn = if options.sheet {
        sheet::drawn::drawn(&Scenes::new(&picked, units))
    } else if options.in_water {
        snell_view::draw_in_water(&picked.notebook, units, medium, &wanted)
    } else {
        snell_view::draw(&picked.notebook, units, medium, &wanted)
    };
    let faulty = picked.tell_faults(session)?;
    match file {
        Some(file) => file.write_all(&drawn, session)?,
        None => print(&drawn, &terminal, session)?,
    }
    Ok(Ended::found_if(faulty))
}

fn print(drawn: &[Drawn], terminal: &Terminal, session: &mut Session) -> Result<(), Trouble> {
    for (index, one) in drawn.iter().enumerate() {
        let before = if index == 0 { "" } else { "\n" };
        let picture = match &one.scene {
            Ok(scene) => drawing::painted(scene, terminal),
            Err(why) => format!("{}: {why}\n", one.name),
        };
        write!(session.out, "{before}{picture}")?;
    }
    Ok(())
}

/// As what a picture is written.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum PictureKind {
    Svg,
    Png,
    Pdf,
}

impl PictureKind {
    fn of(self, scene: &Scene) -> Result<Vec<u8>, write_picture::Unpainted> {
        match self {
            Self::Svg => Ok(write_picture::svg(scene, "rig").into_bytes()),
            Self::Png => write_picture::png(scene),
            Self::Pdf => write_picture::pdf(scene),
        }
    }

    /// What the picture has boxes for.
    fn lacks(self, scene: &Scene) -> Option<String> {
        /// More letters say no more.
        const MOST: usize = 8;
        let letters = match self {
            Self::Svg => Vec::new(),
            Self::Png | Self::Pdf => write_picture::unlettered(scene),
        };
        let told: Vec<String> = letters.iter().take(MOST).map(char::to_string).collect();
        let more = if letters.len() > MOST { " and others" } else { "" };
        let told = format!(
            "its font lacks {}{more}, which are boxes; an SVG shows them",
            told.join(" ")
        );
        (!letters.is_empty()).then_some(told)
    }
}

/// Where pictures are written, and as what.
pub(super) struct PictureFile<'o> {
    path: &'o Path,
    kind: PictureKind,
}

impl<'o> PictureFile<'o> {
    pub(super) fn read(path: &'o Path) -> Result<Self, Trouble> {
        let ending = path
            .extension()
            .and_then(|ending| ending.to_str())
            .unwrap_or_default();
        let kind = match ending.to_ascii_lowercase().as_str() {
            "svg" => PictureKind::Svg,
            "png" => PictureKind::Png,
            "pdf" => PictureKind::Pdf,
            _ => return Err(Trouble::NoPicture(path.display().to_string())),
        };
        Ok(Self { path, kind })
    }

    pub(super) fn write_all(&self, drawn: &[Drawn], session: &mut Session) -> Result<(), Trouble> {
        let mut taken = BTreeSet::new();
        for one in drawn {
            let scene = match &one.scene {
                Ok(scene) => scene,
                Err(why) => {
                    writeln!(session.out, "{}: {why}", one.name)?;
                    continue;
                }
            };
            let path = if drawn.len() == 1 {
                self.path.to_owned()
            } else {
                self.beside(&one.name, &mut taken)
            };
            let picture = self
                .kind
                .of(scene)
                .map_err(|why| Trouble::unwritten(&path, why))?;
            write::put(&path, &picture).map_err(|why| Trouble::unwritten(&path, why))?;
            let but: Vec<String> = one
                .left_out
                .iter()
                .cloned()
                .chain(self.kind.lacks(scene))
                .collect();
            let but = if but.is_empty() {
                String::new()
            } else {
                format!(": {}", but.join("; "))
            };
            writeln!(session.out, "wrote {}{but}", path.display())?;
        }
        Ok(())
    }

    /// One of several: `valley.svg` becomes `valley-harrow-low.svg`.
    fn beside(&self, name: &str, taken: &mut BTreeSet<String>) -> PathBuf {
        let stem = self.path.file_stem().unwrap_or_default().to_string_lossy();
        let ending = self.path.extension().unwrap_or_default().to_string_lossy();
        let numbers = std::iter::once(String::new()).chain((2..).map(|number| format!("-{number}")));
        let mut names = numbers.map(|number| format!("{stem}-{name}{number}.{ending}"));
        let free = names.find(|name| taken.insert(name.to_lowercase()));
        self.path.with_file_name(free.unwrap_or_default())
    }
}
