use notebook::*;
fn main(){
  let paths: Vec<_> = std::env::args().skip(1).map(Into::into).collect();
  let nb = Notebook::open(&paths, &LocalDisk).map_err(|e| format!("{e:?}")).unwrap();
  println!("{}", check(&nb).len());
}
