package core

import (
	"context"
	"errors"
	"fmt"
	"maps"
	"path"
	"runtime/debug"
	"sync"
	"sync/atomic"
	"time"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// Pass is one file, checked together with the libraries that it uses.
type Pass struct {
	Root *File
	Run  *check.Run
	Took time.Duration
	// read is what was asked for: the text, or nil where there was none.
	read map[string]*File

	once  sync.Once
	index index
}

// PathOf is the path of a file that the pass speaks of.
func (p *Pass) PathOf(f *source.File) string {
	if standard(f.Name) {
		return f.Name
	}
	return path.Join(path.Dir(p.Root.Path), f.Name)
}

// FileOf is the text of a file that the pass speaks of, as it was checked; nil
// where the pass did not read it.
func (p *Pass) FileOf(f *source.File) *File {
	file := p.PathOf(f)
	if file == p.Root.Path {
		return p.Root
	}
	return p.read[file]
}

// Files lists what was checked: the root, then its libraries in order of use.
func (p *Pass) Files() []*File {
	var list []*File
	for _, f := range p.Run.Files {
		if file := p.FileOf(f); file != nil {
			list = append(list, file)
		}
	}
	return list
}

// Reads reports whether the pass looked at a path, found or not.
func (p *Pass) Reads(file string) bool {
	_, ok := p.read[file]
	return ok || p.Root.Path == file
}

// Found lists the findings that stand in a file.
func (p *Pass) Found(file string) []finding.Finding {
	var list []finding.Finding
	for _, f := range p.Run.Findings {
		if f.At.File != nil && p.PathOf(f.At.File) == file {
			list = append(list, f)
		}
	}
	return list
}

// fits reports whether the pass would come out the same in a view.
func (p *Pass) fits(v *View) bool {
	if f, err := v.File(p.Root.Path); err != nil || f.Text != p.Root.Text {
		return false
	}
	for file, was := range p.read {
		now, err := v.library(path.Dir(p.Root.Path), file)
		if (err == nil) != (was != nil) || err == nil && now.Text != was.Text {
			return false
		}
	}
	return true
}

// checkIn checks a file as it is in a view, unless it is told to stop. What is
// known early goes to bound, which may be nil.
func checkIn(v *View, root *File, o check.Options, bound func(*Pass)) *Pass {
	start := time.Now()
	p := &Pass{Root: root, read: map[string]*File{}}
	o.Read, o.Today = p.reader(v), start.Format(time.DateOnly)
	if bound != nil {
		o.Bound = func(run *check.Run) {
			soon := &Pass{Root: root, Run: run, read: maps.Clone(p.read), Took: time.Since(start)}
			soon.keepStandard(v)
			bound(soon)
		}
	}
	p.Run = check.Tree(root.Tree(), o)
	p.keepStandard(v)
	p.Took = time.Since(start)
	return p
}

// ErrStale says that an edit has made a pass worthless while it ran.
var ErrStale = errors.New("the text has changed meanwhile")

// Checker runs passes and keeps the last one of each file. Of one file only the
// newest text is checked.
type Checker struct {
	mu       sync.Mutex
	done     map[string]*Pass
	jobs     map[string]*job
	memories map[string]*check.Memory
	slots    chan struct{}

	earlyAfter time.Duration
}

// job is a pass that is under way.
type job struct {
	root     *File
	finished chan struct{}
	stale    chan struct{}
	bound    chan struct{}
	dropped  atomic.Bool
	soon     *Pass // once it is bound
	pass     *Pass // once it is finished
	err      error
}

// atOnce is how many passes run at once: one that is worthless already must not
// keep the next from starting.
const atOnce = 2

// NewChecker makes a checker that has checked nothing. Where checks take as long
// as is said, it tells early what it can.
func NewChecker(earlyAfter time.Duration) *Checker {
	return &Checker{
		earlyAfter: earlyAfter,
		done:       map[string]*Pass{}, jobs: map[string]*job{}, memories: map[string]*check.Memory{},
		slots: make(chan struct{}, atOnce),
	}
}

// Edited tells that a text has changed, so that passes which read it stop.
func (c *Checker) Edited(file string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for root, j := range c.jobs {
		last := c.done[root]
		if root == file || last != nil && last.Reads(file) {
			j.drop()
			delete(c.jobs, root)
		}
	}
}

func (j *job) drop() {
	if !j.dropped.Swap(true) {
		close(j.stale)
	}
}

// Forget drops what is kept of a file that nobody looks at any more.
func (c *Checker) Forget(file string) {
	c.mu.Lock()
	defer c.mu.Unlock()
	delete(c.done, file)
	delete(c.memories, file)
}

// Last is the newest pass of a file that was finished, or nil. It may be of an
// older text.
func (c *Checker) Last(file string) *Pass {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.done[file]
}

// Pass checks a file as it is in a view, or waits for who does so already. The
// error is ErrStale, the context's, or why the file cannot be checked.
func (c *Checker) Pass(ctx context.Context, v *View, file string) (*Pass, error) {
	return c.Watch(ctx, v, file, nil)
}

// Watch is Pass that tells what is known before the check has come to its end, if
// that is worth telling. Soon is called by who waits; it may be nil.
func (c *Checker) Watch(ctx context.Context, v *View, file string, soon func(*Pass)) (*Pass, error) {
	root, err := v.File(file)
	if err != nil {
		return nil, err
	}
	for {
		p, j, mine := c.find(v, root)
		if p != nil {
			return p, nil
		}
		if err := j.wait(ctx, func() {
			if early := c.early(j); soon != nil && early != nil {
				soon(early)
			}
		}); err != nil {
			return nil, err
		}
		switch {
		case mine || j.err != nil:
			return j.pass, j.err
		case j.pass == nil || j.root.Text != root.Text:
			return nil, ErrStale // what is asked for is older than what is there
		}
	}
}

// wait waits for a job's end, and does something when the text is bound.
func (j *job) wait(ctx context.Context, bound func()) error {
	for told := j.bound; ; told = nil {
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-j.stale:
			return ErrStale
		case <-j.finished:
			return nil
		case <-told:
			bound()
		}
	}
}

// find is the pass that fits a view, else the job that is to make it and
// whether it was begun for this view.
func (c *Checker) find(v *View, root *File) (p *Pass, j *job, mine bool) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if p := c.done[root.Path]; p != nil && p.fits(v) {
		return p, nil, false
	}
	if j := c.jobs[root.Path]; j != nil {
		return nil, j, false
	}
	j = &job{root: root, finished: make(chan struct{}), stale: make(chan struct{}), bound: make(chan struct{})}
	memory := c.memories[root.Path]
	if memory == nil {
		memory = &check.Memory{}
		c.memories[root.Path] = memory
	}
	c.jobs[root.Path] = j
	go c.work(j, v, check.Options{Memory: memory, Stop: j.dropped.Load})
	return nil, j, true
}

func (c *Checker) work(j *job, v *View, o check.Options) {
	defer close(j.finished)
	select {
	case c.slots <- struct{}{}:
	case <-j.stale:
		j.err = ErrStale
		return
	}
	defer func() { <-c.slots }()
	pass, err := safely(v, j.root, o, func(soon *Pass) {
		j.soon = soon
		close(j.bound)
	})
	c.mu.Lock()
	defer c.mu.Unlock()
	j.pass, j.err = pass, err
	if j.dropped.Load() {
		j.pass, j.err = nil, ErrStale
		return
	}
	delete(c.jobs, j.root.Path)
	if err == nil {
		c.done[j.root.Path] = pass
	}
}

// safely checks, and turns a fault of the checker into an error: the editor
// must not lose its server over one text.
func safely(v *View, root *File, o check.Options, bound func(*Pass)) (p *Pass, err error) {
	defer func() {
		if fault := recover(); fault != nil {
			err = fmt.Errorf("the check of %s failed: %v\n%s", base(root.Path), fault, debug.Stack())
		}
	}()
	return checkIn(v, root, o, bound), nil
}
