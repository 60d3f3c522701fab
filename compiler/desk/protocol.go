package desk

import "encoding/json"

// The structures of LSP 3.17 that are spoken here, by the names they have there.

type position struct {
	Line      int `json:"line"`
	Character int `json:"character"`
}

type textRange struct {
	Start position `json:"start"`
	End   position `json:"end"`
}

type location struct {
	URI   string    `json:"uri"`
	Range textRange `json:"range"`
}

type documentID struct {
	URI     string `json:"uri"`
	Version *int   `json:"version"` // null in an edit of a text that is not open
}

type documentParams struct {
	TextDocument documentID `json:"textDocument"`
}

type placeParams struct {
	TextDocument documentID `json:"textDocument"`
	Position     position   `json:"position"`
}

type rangeParams struct {
	TextDocument documentID `json:"textDocument"`
	Range        textRange  `json:"range"`
}

type initializeParams struct {
	RootURI          string            `json:"rootUri"`
	WorkspaceFolders []workspaceFolder `json:"workspaceFolders"`
	Capabilities     struct {
		Workspace struct {
			InlayHint struct {
				Refresh bool `json:"refreshSupport"`
			} `json:"inlayHint"`
			Edit struct {
				Versions bool `json:"documentChanges"`
			} `json:"workspaceEdit"`
			Watched struct {
				Dynamic bool `json:"dynamicRegistration"`
			} `json:"didChangeWatchedFiles"`
		} `json:"workspace"`
		TextDocument struct {
			CodeAction struct {
				Resolve struct {
					Properties []string `json:"properties"`
				} `json:"resolveSupport"`
			} `json:"codeAction"`
			Completion struct {
				Item struct {
					Snippets bool `json:"snippetSupport"`
				} `json:"completionItem"`
			} `json:"completion"`
		} `json:"textDocument"`
	} `json:"capabilities"`
}

type workspaceFolder struct {
	URI string `json:"uri"`
}

type didOpenParams struct {
	TextDocument struct {
		URI     string `json:"uri"`
		Version int    `json:"version"`
		Text    string `json:"text"`
	} `json:"textDocument"`
}

type didChangeParams struct {
	TextDocument struct {
		URI     string `json:"uri"`
		Version int    `json:"version"`
	} `json:"textDocument"`
	ContentChanges []struct {
		Range *textRange `json:"range"`
		Text  string     `json:"text"`
	} `json:"contentChanges"`
}

type diagnostic struct {
	Range    textRange     `json:"range"`
	Severity int           `json:"severity"`
	Code     string        `json:"code,omitempty"`
	Source   string        `json:"source"`
	Message  string        `json:"message"`
	Related  []relatedInfo `json:"relatedInformation,omitempty"`
	Tags     []int         `json:"tags,omitempty"`
}

type relatedInfo struct {
	Location location `json:"location"`
	Message  string   `json:"message"`
}

type publishParams struct {
	URI         string       `json:"uri"`
	Version     *int         `json:"version,omitempty"`
	Diagnostics []diagnostic `json:"diagnostics"`
}

type markup struct {
	Kind  string `json:"kind"`
	Value string `json:"value"`
}

type hover struct {
	Contents markup    `json:"contents"`
	Range    textRange `json:"range"`
}

type textEdit struct {
	Range   textRange `json:"range"`
	NewText string    `json:"newText"`
}

type documentEdit struct {
	TextDocument documentID `json:"textDocument"`
	Edits        []textEdit `json:"edits"`
}

// workspaceEdit has its edits with the versions of the texts, or by address alone for a
// client that does not know those.
type workspaceEdit struct {
	DocumentChanges []documentEdit        `json:"documentChanges,omitzero"`
	Changes         map[string][]textEdit `json:"changes,omitzero"`
}

type codeActionParams struct {
	TextDocument documentID `json:"textDocument"`
	Range        textRange  `json:"range"`
	Context      struct {
		Only []string `json:"only"`
	} `json:"context"`
}

type codeAction struct {
	Title       string         `json:"title"`
	Kind        string         `json:"kind"`
	Diagnostics []diagnostic   `json:"diagnostics,omitempty"`
	Preferred   bool           `json:"isPreferred,omitempty"`
	Edit        *workspaceEdit `json:"edit,omitempty"`
	Data        *advice        `json:"data,omitempty"`
}

type completionItem struct {
	Label         string    `json:"label"`
	Kind          int       `json:"kind"`
	Detail        string    `json:"detail,omitempty"`
	Documentation string    `json:"documentation,omitempty"`
	SortText      string    `json:"sortText,omitempty"`
	FilterText    string    `json:"filterText,omitempty"`
	Format        int       `json:"insertTextFormat,omitempty"`
	Edit          *textEdit `json:"textEdit,omitempty"`
}

type completionList struct {
	Incomplete bool             `json:"isIncomplete"`
	Items      []completionItem `json:"items"`
}

type documentSymbol struct {
	Name      string           `json:"name"`
	Detail    string           `json:"detail,omitempty"`
	Kind      int              `json:"kind"`
	Range     textRange        `json:"range"`
	Selection textRange        `json:"selectionRange"`
	Children  []documentSymbol `json:"children,omitempty"`
}

type workspaceSymbol struct {
	Name      string   `json:"name"`
	Kind      int      `json:"kind"`
	Location  location `json:"location"`
	Container string   `json:"containerName,omitempty"`
}

type foldingRange struct {
	Start int    `json:"startLine"`
	End   int    `json:"endLine"`
	Kind  string `json:"kind,omitempty"`
}

type inlayHint struct {
	Position    position `json:"position"`
	Label       string   `json:"label"`
	Tooltip     string   `json:"tooltip,omitempty"`
	PaddingLeft bool     `json:"paddingLeft"`
}

type highlight struct {
	Range textRange `json:"range"`
	Kind  int       `json:"kind"` // 2: spoken of; 3: where it gets its name
}

type prepared struct {
	Range       textRange `json:"range"`
	Placeholder string    `json:"placeholder"`
}

type semanticTokens struct {
	Data []int `json:"data"`
}

// read takes the parameters of a message.
func read[T any](raw json.RawMessage) (p T, err error) {
	if len(raw) == 0 {
		raw = json.RawMessage("{}")
	}
	if json.Unmarshal(raw, &p) != nil {
		return p, failed(invalidParams, "the parameters do not fit the method")
	}
	return p, nil
}
