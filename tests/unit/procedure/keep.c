/* tests/unit/procedure/keep.c  What was kept comes back to the bit, and from nothing but the very file that was written. */
#include "procedure/keep.h"

#include "support/near.h"

#include <dirent.h>
#include <float.h>
#include <sys/stat.h>
#include <unistd.h>

enum { NUMBERS = 5 };

static const double number[NUMBERS] = {0.1, -0.0, DBL_TRUE_MIN, DBL_MAX, 1.0 / 3.0};
static const char recipe[] = "flour 1\nwater 2\n";

static char folder[] = "/tmp/ullage-keep-XXXXXX";
static char deep[64], path[512];

/* Names the only file of the folder; fails where there is not just one. */
static void find_file(void)
{
    DIR *listed = opendir(deep);
    int files = 0;
    assert_non_null(listed);
    for (struct dirent *entry = readdir(listed); entry; entry = readdir(listed))
        if (entry->d_name[0] != '.') {
            snprintf(path, sizeof path, "%s/%s", deep, entry->d_name);
            files++;
        }
    closedir(listed);
    assert_int_equal(files, 1);
}

static bool comes_back(const char *of)
{
    double value[NUMBERS] = {7.0, 7.0, 7.0, 7.0, 7.0};
    const bool found = keep_find(deep, of, value, NUMBERS);
    for (int k = 0; k < NUMBERS; k++)
        assert_memory_equal(&value[k], found ? &number[k] : &(double){7.0}, sizeof(double));
    return found;
}

static int prepare(void **unused)
{
    (void)unused;
    snprintf(deep, sizeof deep, "%s/a/b", mkdtemp(folder));
    keep_put(deep, recipe, number, NUMBERS);
    find_file();
    return 0;
}

static int clear(void **unused)
{
    (void)unused;
    char parent[64];
    snprintf(parent, sizeof parent, "%s/a", folder);
    return unlink(path) || rmdir(deep) || rmdir(parent) || rmdir(folder);
}

static void kept_is_found(void **unused)
{
    (void)unused;
    assert_true(comes_back(recipe));
    assert_false(comes_back("flour 1\nwater 3\n"));
    double value[NUMBERS + 1];
    assert_false(keep_find(deep, recipe, value, NUMBERS + 1));
    assert_false(keep_find(deep, recipe, value, NUMBERS - 1));
    assert_false(keep_find(NULL, recipe, value, NUMBERS));
    struct stat stat_of;
    assert_int_equal(stat(deep, &stat_of), 0);
    assert_int_equal(stat_of.st_mode & 0777, 0700);
}

static size_t file_load(char *room, size_t size)
{
    FILE *from = fopen(path, "rb");
    assert_non_null(from);
    const size_t length = fread(room, 1, size, from);
    fclose(from);
    return length;
}

static void file_store(const char *text, size_t length)
{
    FILE *to = fopen(path, "wb");
    assert_non_null(to);
    assert_int_equal(fwrite(text, 1, length, to), length);
    assert_int_equal(fclose(to), 0);
}

static void broken_files_are_none(void **unused)
{
    (void)unused;
    char whole[1024], broken[1025];
    const size_t length = file_load(whole, sizeof whole);
    assert_true(length > 100 && length < sizeof whole);
    for (size_t cut = 0; cut < length; cut++) {
        file_store(whole, cut);
        assert_false(comes_back(recipe));
    }
    for (size_t k = 0; k < length; k++)
        for (int bit = 0; bit < 8; bit++) {
            memcpy(broken, whole, length);
            broken[k] = (char)(broken[k] ^ (1 << bit));
            file_store(broken, length);
            assert_false(comes_back(recipe));
        }
    memcpy(broken, whole, length);
    broken[length] = '\n';
    file_store(broken, length + 1);
    assert_false(comes_back(recipe));
    keep_put(deep, recipe, number, NUMBERS); /* made anew in its place */
    find_file();
    assert_true(comes_back(recipe));
}

/* Two recipes under one name: as if their hashes were equal. */
static void another_recipe_is_not_this_one(void **unused)
{
    (void)unused;
    char whole[1024], ours[512];
    const size_t length = file_load(whole, sizeof whole);
    strcpy(ours, path);
    keep_put(deep, "flour 9\nwater 2\n", number, NUMBERS);
    assert_int_equal(unlink(ours), 0);
    find_file();
    assert_int_equal(rename(path, ours), 0);
    strcpy(path, ours);
    assert_false(comes_back(recipe));
    file_store(whole, length);
    assert_true(comes_back(recipe));
}

static void no_folder_is_no_trouble(void **unused)
{
    (void)unused;
    double value[NUMBERS];
    keep_put(NULL, recipe, number, NUMBERS);
    keep_put("/proc/none/of/these", recipe, number, NUMBERS);
    assert_false(keep_find("/proc/none/of/these", recipe, value, NUMBERS));
    keep_put(path, recipe, number, NUMBERS); /* a file where a folder should be */
    assert_true(comes_back(recipe));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(kept_is_found),
        cmocka_unit_test(broken_files_are_none),
        cmocka_unit_test(another_recipe_is_not_this_one),
        cmocka_unit_test(no_folder_is_no_trouble),
    };
    return cmocka_run_group_tests_name("what is kept", tests, prepare, clear) != 0;
}
