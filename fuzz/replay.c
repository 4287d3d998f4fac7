/* main of a fuzzer in a build without libFuzzer: gives it each file of the folders named, so that
 * every build runs over the seeds. */
#include "fuzz.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>

static int replay_file(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file == NULL) {
        perror(path);
        return 1;
    }
    size_t capacity = 1u << 22;
    uint8_t *bytes = malloc(capacity);
    size_t length = bytes == NULL ? 0 : fread(bytes, 1, capacity, file);
    fclose(file);
    if (bytes == NULL || length == capacity) {
        fprintf(stderr, "%s: too large\n", path);
        free(bytes);
        return 1;
    }
    /* A copy of the exact size: reading past it is seen. */
    uint8_t *exact = realloc(bytes, length > 0 ? length : 1);
    LLVMFuzzerTestOneInput(exact, length);
    free(exact);
    return 0;
}

static int replay_folder(const char *folder, int *count)
{
    DIR *directory = opendir(folder);
    if (directory == NULL) {
        perror(folder);
        return 1;
    }
    int failed = 0;
    const struct dirent *entry = NULL;
    while ((entry = readdir(directory)) != NULL) {
        if (entry->d_name[0] != '.') {
            char path[4096];
            snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
            failed += replay_file(path);
            (*count)++;
        }
    }
    closedir(directory);
    return failed;
}

int main(int argc, char **argv)
{
    int failed = 0, count = 0;
    for (int i = 1; i < argc; i++) {
        failed += replay_folder(argv[i], &count);
    }
    printf("%d seeds\n", count);
    return failed > 0 || count == 0;
}
