package core

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"time"

	"hame/check"
)

// Limits on the closed files that are checked.
const (
	mostClosed      = 200
	mostClosedBytes = 1 << 20
)

// Closed lists the harness files of the editor's folders that it does not hold,
// in order of path: as many as are looked at, none too large.
func (v *View) Closed() []*File {
	var paths []string
	for _, dir := range v.folders {
		paths = append(paths, harnessFiles(dir)...)
	}
	slices.Sort(paths)
	var list []*File
	for _, p := range slices.Compact(paths) {
		if len(list) == mostClosed {
			break
		}
		info, err := os.Stat(filepath.FromSlash(p))
		if v.open[p] != nil || err != nil || info.Size() > mostClosedBytes {
			continue
		}
		if f, err := v.File(p); err == nil {
			list = append(list, f)
		}
	}
	return list
}

// Shelf keeps what was found in closed files, and nothing else of their checks.
type Shelf struct {
	mu   sync.Mutex
	kept map[string]*Pass
}

// Passes are the checks of closed files, those that still fit from the shelf. One
// is made after another, and none while the checker has something to do for the
// texts that the editor holds. The error is the context's, which an edit ends.
func (s *Shelf) Passes(ctx context.Context, v *View, files []*File, c *Checker) ([]*Pass, error) {
	var list []*Pass
	now := map[string]*Pass{}
	for _, f := range files {
		p := s.find(f.Path)
		if p == nil || !p.fits(v) {
			var err error
			if p, err = checkClosed(ctx, v, f, c); err != nil {
				return nil, err
			}
		}
		now[f.Path] = p
		s.put(f.Path, p)
		list = append(list, p)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	s.kept = now // what is no longer asked for is dropped
	return list, nil
}

func (s *Shelf) find(file string) *Pass {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.kept[file]
}

func (s *Shelf) put(file string, p *Pass) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.kept == nil {
		s.kept = map[string]*Pass{}
	}
	s.kept[file] = p
}

// checkClosed checks one file once the checker has nothing to do. A check that
// fails finds nothing: one text must not keep all others from being told of.
func checkClosed(ctx context.Context, v *View, f *File, c *Checker) (*Pass, error) {
	if err := c.idle(ctx); err != nil {
		return nil, err
	}
	stop := func() bool { return ctx.Err() != nil }
	p, err := safely(v, f, check.Options{Stop: stop}, nil)
	if ctx.Err() != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return &Pass{Root: f, Run: &check.Run{}, read: map[string]*File{}}, nil
	}
	return &Pass{Root: p.Root, Run: &check.Run{Files: p.Run.Files, Findings: p.Run.Findings}, Took: p.Took, read: p.read}, nil
}

// idle waits until no pass is under way.
func (c *Checker) idle(ctx context.Context) error {
	const pause = 10 * time.Millisecond
	for {
		c.mu.Lock()
		busy := len(c.jobs) > 0
		c.mu.Unlock()
		if !busy {
			return ctx.Err()
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(pause):
		}
	}
}
