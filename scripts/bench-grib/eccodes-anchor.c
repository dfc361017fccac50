/*
 * Decodes all values of GRIB files with the ecCodes C library and says how long it took.
 *
 * Reads lines "single PATH" or "multi PATH" and answers each, after one round over the file, with
 * "FIELDS UNREADABLE VALUES HEADER_SECONDS SECONDS". The file is held in memory; a round makes a handle of every message and
 * gets its values into one buffer that is used again. "multi" reads messages that hold several fields.
 */
#include <eccodes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

struct file {
  char path[4096];
  unsigned char *bytes;
  size_t length;
};

struct round {
  long fields, unreadable;
  size_t values;
  double header_seconds;
};

static double *buffer = NULL;
static size_t buffer_count = 0;

static double now(void) {
  struct timespec at;
  clock_gettime(CLOCK_MONOTONIC, &at);
  return (double)at.tv_sec + 1e-9 * (double)at.tv_nsec;
}

static int load(struct file *file, const char *path) {
  FILE *in;
  if (file->bytes != NULL && strcmp(file->path, path) == 0) return 1;
  free(file->bytes);
  file->bytes = NULL;
  in = fopen(path, "rb");
  if (in == NULL) return 0;
  fseek(in, 0, SEEK_END);
  file->length = (size_t)ftell(in);
  rewind(in);
  file->bytes = malloc(file->length);
  snprintf(file->path, sizeof file->path, "%s", path);
  if (fread(file->bytes, 1, file->length, in) != file->length) file->length = 0;
  fclose(in);
  return file->length > 0;
}

/* Octets of the message that begins here, or 0. */
static size_t message_length(const unsigned char *at, size_t left) {
  size_t length = 0;
  int octet;
  if (left < 16 || memcmp(at, "GRIB", 4) != 0) return 0;
  if (at[7] == 1) return ((size_t)at[4] << 16) | ((size_t)at[5] << 8) | at[6];
  for (octet = 8; octet < 16; octet++) length = (length << 8) | at[octet];
  return length;
}

static void get_values(codes_handle *handle, struct round *round) {
  size_t count = 0;
  round->fields++;
  if (codes_get_size(handle, "values", &count) != 0) {
    round->unreadable++;
    return;
  }
  if (count > buffer_count) {
    buffer = realloc(buffer, count * sizeof *buffer);
    buffer_count = count;
  }
  if (codes_get_double_array(handle, "values", buffer, &count) != 0) {
    round->unreadable++;
    return;
  }
  round->values += count;
}

static void read_single(const struct file *file, struct round *round) {
  size_t at = 0;
  while (at < file->length) {
    size_t length = message_length(file->bytes + at, file->length - at);
    double start;
    codes_handle *handle;
    long edition = 0;
    if (length == 0 || length > file->length - at) {
      at++;
      continue;
    }
    start = now();
    handle = codes_handle_new_from_message(NULL, file->bytes + at, length);
    if (handle != NULL) codes_get_long(handle, "edition", &edition);
    round->header_seconds += now() - start;
    if (handle == NULL) round->unreadable++;
    else {
      get_values(handle, round);
      codes_handle_delete(handle);
    }
    at += length;
  }
}

static void read_multi(const struct file *file, struct round *round) {
  void *at = file->bytes;
  size_t left = file->length;
  for (;;) {
    int error = 0;
    double start = now();
    codes_handle *handle = codes_grib_handle_new_from_multi_message(NULL, &at, &left, &error);
    round->header_seconds += now() - start;
    if (handle == NULL || error != 0) return;
    get_values(handle, round);
    codes_handle_delete(handle);
  }
}

int main(void) {
  struct file file = {"", NULL, 0};
  char line[4200];
  codes_grib_multi_support_on(NULL);
  while (fgets(line, sizeof line, stdin) != NULL) {
    struct round round = {0, 0, 0, 0};
    char *path = strchr(line, ' ');
    double start;
    if (path == NULL) return 2;
    *path++ = '\0';
    path[strcspn(path, "\n")] = '\0';
    if (!load(&file, path)) return 3;
    start = now();
    if (strcmp(line, "multi") == 0) read_multi(&file, &round);
    else read_single(&file, &round);
    printf("%ld %ld %zu %.9f %.9f\n", round.fields, round.unreadable, round.values, round.header_seconds, now() - start);
    fflush(stdout);
  }
  return 0;
}
