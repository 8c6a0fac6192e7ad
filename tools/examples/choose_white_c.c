/* Chooses the white of one display from C: the bytes of an instrument's file go in, what to dial in and how sure that is comes out.
   Usage: choose_white_c FOLDER     (data/demo: the files of the demonstration) */
#include <stdio.h>
#include <stdlib.h>

#include <samelight/c/samelight.h>

/* All bytes of a file, to be freed; null where it can't be read. */
static char *bytes_of(const char *name, size_t *length) {
    FILE *file = fopen(name, "rb");
    char *bytes = malloc(1 << 20);
    *length = file != NULL && bytes != NULL ? fread(bytes, 1, 1 << 20, file) : 0;
    if (file != NULL) {
        fclose(file);
    }
    return bytes;
}

int main(int count, char **words) {
    char name[1024];
    snprintf(name, sizeof name, "%s/client-set.csv", count > 1 ? words[1] : "data/demo");
    size_t length = 0;
    char *bytes = bytes_of(name, &length);
    if (length == 0) {
        fprintf(stderr, "%s: can't be read\n", name);
        free(bytes);
        return 1;
    }

    samelight_panel *set = NULL, *tube = NULL, *as_set = NULL;
    samelight_reference *reference = NULL;
    samelight_white_answer *answer = NULL;
    samelight_white_part part;
    samelight_error error;
    samelight_white_part_defaults(&part);
    if (samelight_panel_from_csv(name, bytes, length, &set, &error) == SAMELIGHT_OK &&
        samelight_panel_generic("crt", &tube, &error) == SAMELIGHT_OK &&
        samelight_panel_with_white(tube, 0.3127, 0.3290, &as_set, &error) == SAMELIGHT_OK &&
        samelight_reference_panel(as_set, &reference, &error) == SAMELIGHT_OK &&
        samelight_white(reference, (const samelight_panel *const *)&set, 1, NULL, &answer, &error) == SAMELIGHT_OK &&
        samelight_white_answer_part(answer, 0, &part, &error) == SAMELIGHT_OK) {
        printf("dial in    x %.4f  y %.4f\n", part.x, part.y);
        printf("how sure   +-%.4f  +-%.4f, 19 times in 20, mostly by %s\n", part.half_width_x, part.half_width_y, part.dominant_code);
        printf("verdict    %s (%s)\n", part.verdict_code, part.reason_code);
    } else {
        fprintf(stderr, "%s\n", error.message);
    }
    samelight_white_answer_destroy(answer);
    samelight_reference_destroy(reference);
    samelight_panel_destroy(as_set);
    samelight_panel_destroy(tube);
    samelight_panel_destroy(set);
    free(bytes);
    return error.status == SAMELIGHT_OK ? 0 : 1;
}
