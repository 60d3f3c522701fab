package larder

import "io/fs"

func sub() fs.FS { f, _ := fs.Sub(embedded, "data"); return f }
