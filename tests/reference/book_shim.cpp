// SPDX-License-Identifier: MIT
// Adds one record to a book through a file layer that counts every write, sync, truncate and
// delete, and at the one named ends the process or answers with an error; with memory it is the Nth
// allocation of SQLite that fails:
//   caseload_book_shim BOOK exit|readonly|full|ioerr|memory N
// Prints "added ID" once the record is acknowledged; exit code 9: ended at that call.
#include "caseload/error.hpp"
#include "cli/book_store.hpp"

#include <sqlite3.h>
#include <unistd.h>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <string>

namespace {

int calls = 0;
int at = 0;
std::string how;
sqlite3_vfs* below = nullptr;

struct File {
    sqlite3_file base;
    sqlite3_file* inner() { return reinterpret_cast<sqlite3_file*>(this + 1); }
};
File* own(sqlite3_file* file) {
    return reinterpret_cast<File*>(file);
}

/// What the call answers instead of being done, or SQLITE_OK: do it.
int counted() {
    if (how == "memory") return SQLITE_OK;
    if (++calls != at) return SQLITE_OK;
    if (how == "exit") _exit(9);
    if (how == "readonly") return SQLITE_READONLY;
    return how == "full" ? SQLITE_FULL : SQLITE_IOERR_WRITE;
}

int close_file(sqlite3_file* f) {
    return own(f)->inner()->pMethods->xClose(own(f)->inner());
}
int read_file(sqlite3_file* f, void* to, int n, sqlite3_int64 from) {
    return own(f)->inner()->pMethods->xRead(own(f)->inner(), to, n, from);
}
int write_file(sqlite3_file* f, const void* from, int n, sqlite3_int64 to) {
    if (const int code = counted()) return code;
    return own(f)->inner()->pMethods->xWrite(own(f)->inner(), from, n, to);
}
int truncate_file(sqlite3_file* f, sqlite3_int64 n) {
    if (const int code = counted()) return code;
    return own(f)->inner()->pMethods->xTruncate(own(f)->inner(), n);
}
int sync_file(sqlite3_file* f, int flags) {
    if (const int code = counted()) return code;
    return own(f)->inner()->pMethods->xSync(own(f)->inner(), flags);
}
int size_file(sqlite3_file* f, sqlite3_int64* n) {
    return own(f)->inner()->pMethods->xFileSize(own(f)->inner(), n);
}
int lock_file(sqlite3_file* f, int level) {
    return own(f)->inner()->pMethods->xLock(own(f)->inner(), level);
}
int unlock_file(sqlite3_file* f, int level) {
    return own(f)->inner()->pMethods->xUnlock(own(f)->inner(), level);
}
int reserved(sqlite3_file* f, int* out) {
    return own(f)->inner()->pMethods->xCheckReservedLock(own(f)->inner(), out);
}
int control(sqlite3_file* f, int what, void* with) {
    return own(f)->inner()->pMethods->xFileControl(own(f)->inner(), what, with);
}
int sector(sqlite3_file* f) {
    return own(f)->inner()->pMethods->xSectorSize(own(f)->inner());
}
int traits(sqlite3_file* f) {
    return own(f)->inner()->pMethods->xDeviceCharacteristics(own(f)->inner());
}

const sqlite3_io_methods methods = [] {
    sqlite3_io_methods m{};
    m.iVersion = 1;
    m.xClose = close_file;
    m.xRead = read_file;
    m.xWrite = write_file;
    m.xTruncate = truncate_file;
    m.xSync = sync_file;
    m.xFileSize = size_file;
    m.xLock = lock_file;
    m.xUnlock = unlock_file;
    m.xCheckReservedLock = reserved;
    m.xFileControl = control;
    m.xSectorSize = sector;
    m.xDeviceCharacteristics = traits;
    return m;
}();

int open_file(sqlite3_vfs*, const char* name, sqlite3_file* f, int flags, int* out) {
    own(f)->base.pMethods = nullptr;
    const int code = below->xOpen(below, name, own(f)->inner(), flags, out);
    if (code == SQLITE_OK) own(f)->base.pMethods = &methods;
    return code;
}
int delete_file(sqlite3_vfs*, const char* name, int sync) {
    if (const int code = counted()) return code;
    return below->xDelete(below, name, sync);
}

sqlite3_mem_methods memory_below;

void* take(int size) {
    return ++calls == at ? nullptr : memory_below.xMalloc(size);
}
void* take_again(void* old, int size) {
    return ++calls == at ? nullptr : memory_below.xRealloc(old, size);
}

void fail_memory() {
    sqlite3_config(SQLITE_CONFIG_GETMALLOC, &memory_below);
    static sqlite3_mem_methods failing = memory_below;
    failing.xMalloc = take;
    failing.xRealloc = take_again;
    sqlite3_config(SQLITE_CONFIG_MALLOC, &failing);
}

}  // namespace

int main(int argc, char** argv) {
    if (argc != 4) return 2;
    how = argv[2];
    if (how == "memory") fail_memory();  // before SQLite's first use
    below = sqlite3_vfs_find(nullptr);
    static sqlite3_vfs shim = *below;
    shim.zName = "shim";
    shim.szOsFile = static_cast<int>(sizeof(File)) + below->szOsFile;
    shim.xOpen = open_file;
    shim.xDelete = delete_file;
    sqlite3_vfs_register(&shim, 1);
    calls = 0;
    at = std::atoi(argv[3]);
    try {
        caseload::BookStore store(argv[1], caseload::BookStore::Open::create);
        caseload::book::Record record{"", "2026-01-02", "oil", "A", "", "0", {}};
        // Several pages, so that there is something to be torn.
        record.fields.emplace_back("words", std::string(20000, 'w'));
        for (const auto& one : store.add({record})) std::printf("added %s\n", one.id.c_str());
        std::fflush(stdout);
        return 0;
    } catch (const caseload::Error& error) {
        std::fprintf(stderr, "%s\n", error.problems().front().text.c_str());
        return static_cast<int>(error.kind());
    }
}
