// A program in C that has nothing of samelight but what is installed: prints the targets of the displays whose files are named, read by itself, one a line
// with all digits, and then the answer's JSON.
#include <samelight/c/samelight.h>
#include <stdio.h>
#include <stdlib.h>

static samelight_error error;

static void require(samelight_status status) {
    if (status != SAMELIGHT_OK) {
        fprintf(stderr, "%s: %s\n", samelight_status_name(status), error.message);
        exit(1);
    }
}

static char *bytes_of(const char *file, size_t *length) {
    FILE *stream = fopen(file, "rb");
    size_t room = 1u << 20;
    char *bytes = malloc(room);
    if (stream == NULL || bytes == NULL) {
        fprintf(stderr, "%s can't be read\n", file);
        exit(1);
    }
    *length = fread(bytes, 1, room, stream);
    fclose(stream);
    return bytes;
}

static samelight_panel *panel_of(const char *file) {
    size_t length = 0;
    char *bytes = bytes_of(file, &length);
    samelight_panel *panel = NULL;
    require(samelight_panel_from_csv(file, bytes, length, &panel, &error));
    free(bytes);
    return panel;
}

static samelight_reference *crt_set_to(double x, double y) {
    samelight_panel *crt = NULL;
    samelight_panel *as_set = NULL;
    samelight_reference *reference = NULL;
    require(samelight_panel_generic("crt", &crt, &error));
    require(samelight_panel_with_white(crt, x, y, &as_set, &error));
    require(samelight_reference_panel(as_set, &reference, &error));
    samelight_panel_destroy(as_set);
    samelight_panel_destroy(crt);
    return reference;
}

static void print_parts(const samelight_white_answer *answer) {
    size_t i = 0;
    for (i = 0; i < samelight_white_answer_count(answer); ++i) {
        samelight_white_part part;
        samelight_white_part_defaults(&part);
        require(samelight_white_answer_part(answer, i, &part, &error));
        printf("%.17g %.17g %.17g %.17g %s\n", part.x, part.y, part.half_width_x, part.half_width_y, part.verdict_code);
    }
}

int main(int count, char **files) {
    samelight_panel *panels[16] = {NULL};
    samelight_white_answer *answer = NULL;
    samelight_text *json = NULL;
    samelight_reference *reference = crt_set_to(0.3127, 0.3290);
    int i = 0;
    if (samelight_abi_version() != SAMELIGHT_ABI_VERSION || count < 2 || count > 17) {
        return 1;
    }
    printf("samelight %s\n", samelight_version());
    for (i = 1; i < count; ++i) {
        panels[i - 1] = panel_of(files[i]);
    }
    require(samelight_white(reference, (const samelight_panel *const *)panels, (size_t)count - 1, NULL, &answer, &error));
    print_parts(answer);
    require(samelight_white_answer_json(answer, &json, &error));
    printf("%s", samelight_text_data(json));
    samelight_text_destroy(json);
    samelight_white_answer_destroy(answer);
    samelight_reference_destroy(reference);
    for (i = 1; i < count; ++i) {
        samelight_panel_destroy(panels[i - 1]);
    }
    return 0;
}
