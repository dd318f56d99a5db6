// Command hame checks low-voltage DC wiring harnesses that are described in
// the hame language.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], os.Stdin, os.Stdout, os.Stderr, os.Getenv))
}
