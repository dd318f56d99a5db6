module hame-chroma-test

go 1.26

require github.com/alecthomas/chroma/v2 v2.27.0

require github.com/dlclark/regexp2/v2 v2.2.1 // indirect
