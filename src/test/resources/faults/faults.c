/*
 * Lets the n-th write, force to the disk or change of a name of a recording fail, beneath whatever library does it. Loaded ahead of
 * the C library (LD_PRELOAD). FAULTS_CONTROL names a file of five 64-bit numbers, shared with the test that steers it:
 *   0  which calls: 1 writes, 2 forces, 4 renames and removals, 8 changes of length; added up
 *   1  the call that fails, counted from 1; 0 for none
 *   2  0 fails once, 1 fails from then on
 *   3  calls seen
 *   4  calls that failed
 * Only files whose name holds ".dwrec" are concerned. A write that fails may have written its first half.
 */
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/types.h>
#include <unistd.h>

static volatile long long *control;

__attribute__((constructor)) static void start(void) {
    const char *name = getenv("FAULTS_CONTROL");
    int fd = name == NULL ? -1 : open(name, O_RDWR);
    if (fd >= 0) {
        void *shared = mmap(NULL, 40, PROT_READ | PROT_WRITE, MAP_SHARED, fd, 0);
        control = shared == MAP_FAILED ? NULL : shared;
        close(fd);
    }
}

static int fails(int kind) {
    if (control == NULL || (control[0] & kind) == 0) {
        return 0;
    }
    long long call = ++control[3];
    if (control[1] == 0 || call < control[1] || (call > control[1] && control[2] == 0)) {
        return 0;
    }
    control[4]++;
    errno = EIO;
    return 1;
}

static int recording(int fd) {
    char link[64];
    char name[4096];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t n = readlink(link, name, sizeof name - 1);
    if (n <= 0) {
        return 0;
    }
    name[n] = 0;
    /* The log's index is memory that is thrown away, not a file that must last. */
    return strstr(name, ".dwrec") != NULL && strstr(name, "-shm") == NULL;
}

#define REAL(name) ((__typeof__(&name)) dlsym(RTLD_NEXT, #name))

ssize_t pwrite64(int fd, const void *bytes, size_t n, off64_t at) {
    if (recording(fd) && fails(1)) {
        if (n > 1) {
            REAL(pwrite64)(fd, bytes, n / 2, at);
        }
        errno = EIO;
        return -1;
    }
    return REAL(pwrite64)(fd, bytes, n, at);
}

ssize_t pwrite(int fd, const void *bytes, size_t n, off_t at) {
    return pwrite64(fd, bytes, n, at);
}

ssize_t write(int fd, const void *bytes, size_t n) {
    if (recording(fd) && fails(1)) {
        return -1;
    }
    return REAL(write)(fd, bytes, n);
}

int fsync(int fd) {
    return recording(fd) && fails(2) ? -1 : REAL(fsync)(fd);
}

int fdatasync(int fd) {
    return recording(fd) && fails(2) ? -1 : REAL(fdatasync)(fd);
}

int ftruncate64(int fd, off64_t length) {
    return recording(fd) && fails(8) ? -1 : REAL(ftruncate64)(fd, length);
}

int ftruncate(int fd, off_t length) {
    return ftruncate64(fd, length);
}

int rename(const char *from, const char *to) {
    return strstr(from, ".dwrec") != NULL && fails(4) ? -1 : REAL(rename)(from, to);
}

int unlink(const char *name) {
    return strstr(name, ".dwrec") != NULL && strstr(name, "-shm") == NULL && fails(4) ? -1 : REAL(unlink)(name);
}
