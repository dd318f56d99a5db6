package harness

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"
	"strings"

	"hame/lang/parts"
	"hame/lang/source"
	"hame/lang/syntax"
)

// The most libraries that one harness may use, one another's included, and the
// deepest that they may use each other.
const (
	maxLibraries = 64
	maxUseDepth  = 8
)

// libraries reads the root file's libraries and theirs.
func (b *binder) libraries() {
	b.files = []*syntax.File{b.root}
	b.follow(b.root, []string{b.root.Source.Name})
}

// follow reads what one file uses. The chain holds the files above it.
func (b *binder) follow(f *syntax.File, chain []string) {
	for _, d := range f.Decls {
		u, ok := d.(*syntax.Use)
		if !ok || u.Path == nil {
			continue
		}
		name, ok := b.usePath(f, u)
		if !ok {
			continue
		}
		if slices.Contains(chain, name) {
			b.say(f.Source, u.Path.Span, "use/loop", name, "`%s` uses itself: %s", name, strings.Join(append(slices.Clone(chain), name), " uses "))
			continue
		}
		if slices.ContainsFunc(b.files, func(x *syntax.File) bool { return x.Source.Name == name }) {
			continue // two may use the same library
		}
		b.read(f, u, name, chain)
	}
}

// usePath is the library's path from the root folder. One that leaves the
// folder is said.
func (b *binder) usePath(f *syntax.File, u *syntax.Use) (string, bool) {
	text := u.Path.Text
	if strings.HasPrefix(text, parts.Prefix) {
		return text, true
	}
	if strings.HasPrefix(f.Source.Name, parts.Prefix) {
		return parts.Prefix + strings.TrimSuffix(text, ".hame"), true
	}
	if strings.TrimSpace(text) == "" {
		b.say(f.Source, u.Path.Span, "use/missing", text, "`use` wants the path of a library, and there is none between the quotes")
		b.lost = true
		return "", false
	}
	root := path.Dir(b.root.Source.Name)
	within := path.Join(below(root, path.Dir(f.Source.Name)), text)
	if path.IsAbs(text) || strings.ContainsAny(text, "\\:\x00") || within == ".." || strings.HasPrefix(within, "../") {
		b.lost = true
		b.say(f.Source, u.Path.Span, "use/outside", text, "`%s` leaves the folder of the root file, and a library must lie in it", text)
		return "", false
	}
	return path.Join(root, within), true
}

// below is a folder's path from the root folder that it lies in.
func below(root, dir string) string {
	if root == "." {
		return dir
	}
	return strings.TrimPrefix(strings.TrimPrefix(dir, root), "/")
}

func (b *binder) read(f *syntax.File, u *syntax.Use, name string, chain []string) {
	if why := b.tooMany(chain); why != "" {
		b.lost = true
		b.say(f.Source, u.Path.Span, "use/missing", name, "`%s` is not read: %s", u.Path.Text, why)
		return
	}
	text, err := b.text(name)
	b.lost = b.lost || err != nil
	switch {
	case errors.Is(err, fs.ErrInvalid):
		b.say(f.Source, u.Path.Span, "use/missing", name, "`%s` is no file that can be read: a library is a plain file", u.Path.Text)
		return
	case errors.Is(err, fs.ErrPermission):
		b.say(f.Source, u.Path.Span, "use/outside", name, "`%s` leads out of the folder of the root file, or may not be read", u.Path.Text)
		return
	case err != nil:
		b.say(f.Source, u.Path.Span, "use/missing", name, "there is no library `%s`%s", u.Path.Text, standardHint(name))
		return
	}
	parse := syntax.Parse
	if b.options.Tree != nil {
		parse = b.options.Tree
	}
	lib := parse(source.New(name, text))
	b.files = append(b.files, lib)
	b.follow(lib, append(slices.Clone(chain), name))
}

func (b *binder) tooMany(chain []string) string {
	switch {
	case len(chain) > maxUseDepth:
		return fmt.Sprintf("libraries use one another at most %d deep", maxUseDepth)
	case len(b.files) > maxLibraries:
		return fmt.Sprintf("a harness uses at most %d libraries in all", maxLibraries)
	}
	return ""
}

func (b *binder) text(name string) (string, error) {
	if standard, ok := strings.CutPrefix(name, parts.Prefix); ok {
		return parts.Read(standard)
	}
	if b.options.Read == nil {
		return "", fs.ErrNotExist
	}
	return b.options.Read(name)
}

func standardHint(name string) string {
	if strings.HasPrefix(name, parts.Prefix) {
		return ": the program holds " + strings.Join(parts.Names(), ", ")
	}
	return ""
}
