// What the core asks of the page; the page gives the real thing when it starts the core.
mergeInto(LibraryManager.library, { foretone_progress: function (share) {} });
