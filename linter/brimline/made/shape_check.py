"""Whether a document has the shape that schema/formula.schema.json defines; written by ci/make.py, not by hand."""

# ruff: noqa
# mypy: ignore-errors
# fmt: off

import re


class JsonSchemaValueException(ValueError):
    """Raised for the first thing in a document that the schema does not allow; the schema's own validator says what."""


# Never raised: the check stops at the first fault. The code below names it.
JsonSchemaValuesException = JsonSchemaValueException


REGEX_PATTERNS = {
    '^[A-Z0-9]{1,12}(-[A-Z0-9]{1,12}){1,4}$': re.compile('^[A-Z0-9]{1,12}(-[A-Z0-9]{1,12}){1,4}\\Z'),
    '^[0-9]{4}-[0-9]{2}-[0-9]{2}$': re.compile('^[0-9]{4}-[0-9]{2}-[0-9]{2}\\Z'),
    '^[A-Za-z]+( [a-z]+)?$': re.compile('^[A-Za-z]+( [a-z]+)?\\Z'),
    '^[0-9]{1,40}(/[0-9]{1,39})?$': re.compile('^[0-9]{1,40}(/[0-9]{1,39})?\\Z')
}

NoneType = type(None)

def validate(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    try:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['standing']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
            data_keys = set(data.keys())
            if "standing" in data_keys:
                data_keys.remove("standing")
                data__standing = data["standing"]
                if not (isinstance(data__standing, str) and data__standing == 'tested' or isinstance(data__standing, str) and data__standing == 'adapted'):
                    raise JsonSchemaValueException
    except (JsonSchemaValueException, JsonSchemaValuesException):
        pass
    else:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['product', 'take', 'pack']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
            data_keys = set(data.keys())
            if "pack" in data_keys:
                data_keys.remove("pack")
                data__pack = data["pack"]
                data__pack_is_dict = isinstance(data__pack, dict)
                if data__pack_is_dict:
                    data__pack__missing_keys = set(['jars']) - data__pack.keys()
                    if data__pack__missing_keys:
                        raise JsonSchemaValueException
            if "process" in data_keys:
                data_keys.remove("process")
                data__process = data["process"]
                data__process_is_list = isinstance(data__process, (list, tuple))
                if data__process_is_list:
                    data__process_len = len(data__process)
                    for data__process_x, data__process_item in enumerate(data__process):
                        try:
                            data__process_item_is_dict = isinstance(data__process_item, dict)
                            if data__process_item_is_dict:
                                data__process_item_keys = set(data__process_item.keys())
                                if "method" in data__process_item_keys:
                                    data__process_item_keys.remove("method")
                                    data__process_item__method = data__process_item["method"]
                                    if not (isinstance(data__process_item__method, str) and data__process_item__method == 'boiling-water' or isinstance(data__process_item__method, str) and data__process_item__method == 'steam' or isinstance(data__process_item__method, str) and data__process_item__method == 'pressure'):
                                        raise JsonSchemaValueException
                        except (JsonSchemaValueException, JsonSchemaValuesException):
                            pass
                        else:
                            data__process_item_is_dict = isinstance(data__process_item, dict)
                            if data__process_item_is_dict:
                                data__process_item__missing_keys = set(['rows']) - data__process_item.keys()
                                if data__process_item__missing_keys:
                                    raise JsonSchemaValueException
    try:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['standing']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
            data_keys = set(data.keys())
            if "standing" in data_keys:
                data_keys.remove("standing")
                data__standing = data["standing"]
                if not (isinstance(data__standing, str) and data__standing == 'adapted'):
                    raise JsonSchemaValueException
    except (JsonSchemaValueException, JsonSchemaValuesException):
        pass
    else:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['adapts']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
    try:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['standing']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
            data_keys = set(data.keys())
            if "standing" in data_keys:
                data_keys.remove("standing")
                data__standing = data["standing"]
                if not (isinstance(data__standing, str) and data__standing == 'retired'):
                    raise JsonSchemaValueException
    except (JsonSchemaValueException, JsonSchemaValuesException):
        pass
    else:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['retired']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
    try:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['retired']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
    except (JsonSchemaValueException, JsonSchemaValuesException):
        pass
    else:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data_keys = set(data.keys())
            if "standing" in data_keys:
                data_keys.remove("standing")
                data__standing = data["standing"]
                if not (isinstance(data__standing, str) and data__standing == 'retired'):
                    raise JsonSchemaValueException
    try:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data__missing_keys = set(['successor']) - data.keys()
            if data__missing_keys:
                raise JsonSchemaValueException
    except (JsonSchemaValueException, JsonSchemaValuesException):
        pass
    else:
        data_is_dict = isinstance(data, dict)
        if data_is_dict:
            data_keys = set(data.keys())
            if "standing" in data_keys:
                data_keys.remove("standing")
                data__standing = data["standing"]
                if not (isinstance(data__standing, str) and data__standing == 'retired'):
                    raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['code', 'title', 'standing']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "code" in data_keys:
            data_keys.remove("code")
            data__code = data["code"]
            if not isinstance(data__code, (str)):
                raise JsonSchemaValueException
            if isinstance(data__code, str):
                data__code_len = len(data__code)
                if data__code_len > 64:
                    raise JsonSchemaValueException
                if not REGEX_PATTERNS['^[A-Z0-9]{1,12}(-[A-Z0-9]{1,12}){1,4}$'].search(data__code):
                    raise JsonSchemaValueException
        if "title" in data_keys:
            data_keys.remove("title")
            data__title = data["title"]
            if not isinstance(data__title, (str)):
                raise JsonSchemaValueException
            if isinstance(data__title, str):
                data__title_len = len(data__title)
                if data__title_len < 1:
                    raise JsonSchemaValueException
                if data__title_len > 200:
                    raise JsonSchemaValueException
        if "product" in data_keys:
            data_keys.remove("product")
            data__product = data["product"]
            if not (isinstance(data__product, str) and data__product == 'jelly' or isinstance(data__product, str) and data__product == 'jam' or isinstance(data__product, str) and data__product == 'preserves' or isinstance(data__product, str) and data__product == 'marmalade' or isinstance(data__product, str) and data__product == 'conserve' or isinstance(data__product, str) and data__product == 'chutney' or isinstance(data__product, str) and data__product == 'fruit butter' or isinstance(data__product, str) and data__product == 'fruit curd' or isinstance(data__product, str) and data__product == 'spread' or isinstance(data__product, str) and data__product == 'fruit syrup' or isinstance(data__product, str) and data__product == 'relish' or isinstance(data__product, str) and data__product == 'salsa' or isinstance(data__product, str) and data__product == 'sauce' or isinstance(data__product, str) and data__product == 'pie filling' or isinstance(data__product, str) and data__product == 'canned fruit' or isinstance(data__product, str) and data__product == 'tomato' or isinstance(data__product, str) and data__product == 'juice' or isinstance(data__product, str) and data__product == 'puree' or isinstance(data__product, str) and data__product == 'pickle' or isinstance(data__product, str) and data__product == 'fermented pickle'):
                raise JsonSchemaValueException
        if "standing" in data_keys:
            data_keys.remove("standing")
            data__standing = data["standing"]
            if not (isinstance(data__standing, str) and data__standing == 'tested' or isinstance(data__standing, str) and data__standing == 'adapted' or isinstance(data__standing, str) and data__standing == 'draft' or isinstance(data__standing, str) and data__standing == 'retired'):
                raise JsonSchemaValueException
        if "adapts" in data_keys:
            data_keys.remove("adapts")
            data__adapts = data["adapts"]
            if not isinstance(data__adapts, (str)):
                raise JsonSchemaValueException
            if isinstance(data__adapts, str):
                data__adapts_len = len(data__adapts)
                if data__adapts_len > 64:
                    raise JsonSchemaValueException
                if not REGEX_PATTERNS['^[A-Z0-9]{1,12}(-[A-Z0-9]{1,12}){1,4}$'].search(data__adapts):
                    raise JsonSchemaValueException
        if "finish" in data_keys:
            data_keys.remove("finish")
            data__finish = data["finish"]
            validate____defs_finish(data__finish)
        if "yield" in data_keys:
            data_keys.remove("yield")
            data__yield = data["yield"]
            if not isinstance(data__yield, (dict)):
                raise JsonSchemaValueException
            data__yield_is_dict = isinstance(data__yield, dict)
            if data__yield_is_dict:
                data__yield__missing_keys = set(['low', 'high', 'jar']) - data__yield.keys()
                if data__yield__missing_keys:
                    raise JsonSchemaValueException
                data__yield_keys = set(data__yield.keys())
                if "low" in data__yield_keys:
                    data__yield_keys.remove("low")
                    data__yield__low = data__yield["low"]
                    validate____defs_number(data__yield__low)
                if "high" in data__yield_keys:
                    data__yield_keys.remove("high")
                    data__yield__high = data__yield["high"]
                    validate____defs_number(data__yield__high)
                if "jar" in data__yield_keys:
                    data__yield_keys.remove("jar")
                    data__yield__jar = data__yield["jar"]
                    validate____defs_jar(data__yield__jar)
                if data__yield_keys:
                    raise JsonSchemaValueException
        if "sold_as" in data_keys:
            data_keys.remove("sold_as")
            data__soldas = data["sold_as"]
            if not isinstance(data__soldas, (str)):
                raise JsonSchemaValueException
            if isinstance(data__soldas, str):
                data__soldas_len = len(data__soldas)
                if data__soldas_len < 1:
                    raise JsonSchemaValueException
                if data__soldas_len > 200:
                    raise JsonSchemaValueException
        if "retired" in data_keys:
            data_keys.remove("retired")
            data__retired = data["retired"]
            if not isinstance(data__retired, (str)):
                raise JsonSchemaValueException
            if isinstance(data__retired, str):
                data__retired_len = len(data__retired)
                if data__retired_len < 1:
                    raise JsonSchemaValueException
                if data__retired_len > 400:
                    raise JsonSchemaValueException
        if "successor" in data_keys:
            data_keys.remove("successor")
            data__successor = data["successor"]
            if not isinstance(data__successor, (str)):
                raise JsonSchemaValueException
            if isinstance(data__successor, str):
                data__successor_len = len(data__successor)
                if data__successor_len > 64:
                    raise JsonSchemaValueException
                if not REGEX_PATTERNS['^[A-Z0-9]{1,12}(-[A-Z0-9]{1,12}){1,4}$'].search(data__successor):
                    raise JsonSchemaValueException
        if "take" in data_keys:
            data_keys.remove("take")
            data__take = data["take"]
            if not isinstance(data__take, (list, tuple)):
                raise JsonSchemaValueException
            data__take_is_list = isinstance(data__take, (list, tuple))
            if data__take_is_list:
                data__take_len = len(data__take)
                if data__take_len < 1:
                    raise JsonSchemaValueException
                if data__take_len > 200:
                    raise JsonSchemaValueException
                for data__take_x, data__take_item in enumerate(data__take):
                    validate____defs_line(data__take_item)
        if "make" in data_keys:
            data_keys.remove("make")
            data__make = data["make"]
            if not isinstance(data__make, (list, tuple)):
                raise JsonSchemaValueException
            data__make_is_list = isinstance(data__make, (list, tuple))
            if data__make_is_list:
                data__make_len = len(data__make)
                if data__make_len < 1:
                    raise JsonSchemaValueException
                if data__make_len > 200:
                    raise JsonSchemaValueException
                for data__make_x, data__make_item in enumerate(data__make):
                    if not isinstance(data__make_item, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__make_item, str):
                        data__make_item_len = len(data__make_item)
                        if data__make_item_len < 1:
                            raise JsonSchemaValueException
                        if data__make_item_len > 4000:
                            raise JsonSchemaValueException
        if "pack" in data_keys:
            data_keys.remove("pack")
            data__pack = data["pack"]
            if not isinstance(data__pack, (dict)):
                raise JsonSchemaValueException
            data__pack_is_dict = isinstance(data__pack, dict)
            if data__pack_is_dict:
                data__pack__missing_keys = set([]) - data__pack.keys()
                if data__pack__missing_keys:
                    raise JsonSchemaValueException
                data__pack_keys = set(data__pack.keys())
                if "jars" in data__pack_keys:
                    data__pack_keys.remove("jars")
                    data__pack__jars = data__pack["jars"]
                    if not isinstance(data__pack__jars, (list, tuple)):
                        raise JsonSchemaValueException
                    data__pack__jars_is_list = isinstance(data__pack__jars, (list, tuple))
                    if data__pack__jars_is_list:
                        data__pack__jars_len = len(data__pack__jars)
                        if data__pack__jars_len < 1:
                            raise JsonSchemaValueException
                        if data__pack__jars_len > 20:
                            raise JsonSchemaValueException
                        for data__pack__jars_x, data__pack__jars_item in enumerate(data__pack__jars):
                            validate____defs_jar(data__pack__jars_item)
                if "prepare" in data__pack_keys:
                    data__pack_keys.remove("prepare")
                    data__pack__prepare = data__pack["prepare"]
                    if not isinstance(data__pack__prepare, (list, tuple)):
                        raise JsonSchemaValueException
                    data__pack__prepare_is_list = isinstance(data__pack__prepare, (list, tuple))
                    if data__pack__prepare_is_list:
                        data__pack__prepare_len = len(data__pack__prepare)
                        if data__pack__prepare_len < 1:
                            raise JsonSchemaValueException
                        if data__pack__prepare_len > 8:
                            raise JsonSchemaValueException
                        for data__pack__prepare_x, data__pack__prepare_item in enumerate(data__pack__prepare):
                            if not isinstance(data__pack__prepare_item, (dict)):
                                raise JsonSchemaValueException
                            data__pack__prepare_item_is_dict = isinstance(data__pack__prepare_item, dict)
                            if data__pack__prepare_item_is_dict:
                                data__pack__prepare_item__missing_keys = set(['kind']) - data__pack__prepare_item.keys()
                                if data__pack__prepare_item__missing_keys:
                                    raise JsonSchemaValueException
                                data__pack__prepare_item_keys = set(data__pack__prepare_item.keys())
                                if "kind" in data__pack__prepare_item_keys:
                                    data__pack__prepare_item_keys.remove("kind")
                                    data__pack__prepare_item__kind = data__pack__prepare_item["kind"]
                                    if not (isinstance(data__pack__prepare_item__kind, str) and data__pack__prepare_item__kind == 'sterile' or isinstance(data__pack__prepare_item__kind, str) and data__pack__prepare_item__kind == 'clean'):
                                        raise JsonSchemaValueException
                                if "jars" in data__pack__prepare_item_keys:
                                    data__pack__prepare_item_keys.remove("jars")
                                    data__pack__prepare_item__jars = data__pack__prepare_item["jars"]
                                    if not isinstance(data__pack__prepare_item__jars, (list, tuple)):
                                        raise JsonSchemaValueException
                                    data__pack__prepare_item__jars_is_list = isinstance(data__pack__prepare_item__jars, (list, tuple))
                                    if data__pack__prepare_item__jars_is_list:
                                        data__pack__prepare_item__jars_len = len(data__pack__prepare_item__jars)
                                        if data__pack__prepare_item__jars_len < 1:
                                            raise JsonSchemaValueException
                                        if data__pack__prepare_item__jars_len > 20:
                                            raise JsonSchemaValueException
                                        for data__pack__prepare_item__jars_x, data__pack__prepare_item__jars_item in enumerate(data__pack__prepare_item__jars):
                                            validate____defs_jar(data__pack__prepare_item__jars_item)
                                if data__pack__prepare_item_keys:
                                    raise JsonSchemaValueException
                if "fill" in data__pack_keys:
                    data__pack_keys.remove("fill")
                    data__pack__fill = data__pack["fill"]
                    if not (isinstance(data__pack__fill, str) and data__pack__fill == 'hot' or isinstance(data__pack__fill, str) and data__pack__fill == 'raw'):
                        raise JsonSchemaValueException
                if "headspace" in data__pack_keys:
                    data__pack_keys.remove("headspace")
                    data__pack__headspace = data__pack["headspace"]
                    if not isinstance(data__pack__headspace, (list, tuple)):
                        raise JsonSchemaValueException
                    data__pack__headspace_is_list = isinstance(data__pack__headspace, (list, tuple))
                    if data__pack__headspace_is_list:
                        data__pack__headspace_len = len(data__pack__headspace)
                        if data__pack__headspace_len < 1:
                            raise JsonSchemaValueException
                        if data__pack__headspace_len > 8:
                            raise JsonSchemaValueException
                        for data__pack__headspace_x, data__pack__headspace_item in enumerate(data__pack__headspace):
                            if not isinstance(data__pack__headspace_item, (dict)):
                                raise JsonSchemaValueException
                            data__pack__headspace_item_is_dict = isinstance(data__pack__headspace_item, dict)
                            if data__pack__headspace_item_is_dict:
                                data__pack__headspace_item__missing_keys = set(['inches']) - data__pack__headspace_item.keys()
                                if data__pack__headspace_item__missing_keys:
                                    raise JsonSchemaValueException
                                data__pack__headspace_item_keys = set(data__pack__headspace_item.keys())
                                if "inches" in data__pack__headspace_item_keys:
                                    data__pack__headspace_item_keys.remove("inches")
                                    data__pack__headspace_item__inches = data__pack__headspace_item["inches"]
                                    validate____defs_number(data__pack__headspace_item__inches)
                                if "jars" in data__pack__headspace_item_keys:
                                    data__pack__headspace_item_keys.remove("jars")
                                    data__pack__headspace_item__jars = data__pack__headspace_item["jars"]
                                    if not isinstance(data__pack__headspace_item__jars, (list, tuple)):
                                        raise JsonSchemaValueException
                                    data__pack__headspace_item__jars_is_list = isinstance(data__pack__headspace_item__jars, (list, tuple))
                                    if data__pack__headspace_item__jars_is_list:
                                        data__pack__headspace_item__jars_len = len(data__pack__headspace_item__jars)
                                        if data__pack__headspace_item__jars_len < 1:
                                            raise JsonSchemaValueException
                                        if data__pack__headspace_item__jars_len > 20:
                                            raise JsonSchemaValueException
                                        for data__pack__headspace_item__jars_x, data__pack__headspace_item__jars_item in enumerate(data__pack__headspace_item__jars):
                                            validate____defs_jar(data__pack__headspace_item__jars_item)
                                if data__pack__headspace_item_keys:
                                    raise JsonSchemaValueException
                if "lid" in data__pack_keys:
                    data__pack_keys.remove("lid")
                    data__pack__lid = data__pack["lid"]
                    if not isinstance(data__pack__lid, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__pack__lid, str):
                        data__pack__lid_len = len(data__pack__lid)
                        if data__pack__lid_len < 1:
                            raise JsonSchemaValueException
                        if data__pack__lid_len > 200:
                            raise JsonSchemaValueException
                if data__pack_keys:
                    raise JsonSchemaValueException
        if "process" in data_keys:
            data_keys.remove("process")
            data__process = data["process"]
            if not isinstance(data__process, (list, tuple)):
                raise JsonSchemaValueException
            data__process_is_list = isinstance(data__process, (list, tuple))
            if data__process_is_list:
                data__process_len = len(data__process)
                if data__process_len < 1:
                    raise JsonSchemaValueException
                if data__process_len > 12:
                    raise JsonSchemaValueException
                for data__process_x, data__process_item in enumerate(data__process):
                    validate____defs_process(data__process_item)
        if "keep" in data_keys:
            data_keys.remove("keep")
            data__keep = data["keep"]
            if not isinstance(data__keep, (list, tuple)):
                raise JsonSchemaValueException
            data__keep_is_list = isinstance(data__keep, (list, tuple))
            if data__keep_is_list:
                data__keep_len = len(data__keep)
                if data__keep_len < 1:
                    raise JsonSchemaValueException
                if data__keep_len > 40:
                    raise JsonSchemaValueException
                for data__keep_x, data__keep_item in enumerate(data__keep):
                    validate____defs_keep(data__keep_item)
        if "changes" in data_keys:
            data_keys.remove("changes")
            data__changes = data["changes"]
            if not isinstance(data__changes, (list, tuple)):
                raise JsonSchemaValueException
            data__changes_is_list = isinstance(data__changes, (list, tuple))
            if data__changes_is_list:
                data__changes_len = len(data__changes)
                if data__changes_len < 1:
                    raise JsonSchemaValueException
                if data__changes_len > 80:
                    raise JsonSchemaValueException
                for data__changes_x, data__changes_item in enumerate(data__changes):
                    if not isinstance(data__changes_item, (dict)):
                        raise JsonSchemaValueException
                    data__changes_item_is_dict = isinstance(data__changes_item, dict)
                    if data__changes_item_is_dict:
                        data__changes_item__missing_keys = set(['subject']) - data__changes_item.keys()
                        if data__changes_item__missing_keys:
                            raise JsonSchemaValueException
                        data__changes_item_keys = set(data__changes_item.keys())
                        if "subject" in data__changes_item_keys:
                            data__changes_item_keys.remove("subject")
                            data__changes_item__subject = data__changes_item["subject"]
                            if not (isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'fruit' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'juice' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'peel' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'vegetable' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'dried-fruit' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'nut' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'sweetener' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'acid' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'pectin' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'gelling' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'firming' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'thickener' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'liquid' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'spirit' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'fat' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'egg' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'dairy' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'meat' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'salt' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'spice' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'herb' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'condiment' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'flavouring' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'colour' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'jar' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'fill' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'prepare' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'headspace' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'lid' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'process' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'finish' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'keep' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'batch' or isinstance(data__changes_item__subject, str) and data__changes_item__subject == 'product'):
                                raise JsonSchemaValueException
                        if "text" in data__changes_item_keys:
                            data__changes_item_keys.remove("text")
                            data__changes_item__text = data__changes_item["text"]
                            if not isinstance(data__changes_item__text, (str)):
                                raise JsonSchemaValueException
                            if isinstance(data__changes_item__text, str):
                                data__changes_item__text_len = len(data__changes_item__text)
                                if data__changes_item__text_len < 1:
                                    raise JsonSchemaValueException
                                if data__changes_item__text_len > 2000:
                                    raise JsonSchemaValueException
                        if data__changes_item_keys:
                            raise JsonSchemaValueException
        if "evidence" in data_keys:
            data_keys.remove("evidence")
            data__evidence = data["evidence"]
            if not isinstance(data__evidence, (list, tuple)):
                raise JsonSchemaValueException
            data__evidence_is_list = isinstance(data__evidence, (list, tuple))
            if data__evidence_is_list:
                data__evidence_len = len(data__evidence)
                if data__evidence_len < 1:
                    raise JsonSchemaValueException
                if data__evidence_len > 200:
                    raise JsonSchemaValueException
                for data__evidence_x, data__evidence_item in enumerate(data__evidence):
                    validate____defs_evidence(data__evidence_item)
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_evidence(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['kind', 'text']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "kind" in data_keys:
            data_keys.remove("kind")
            data__kind = data["kind"]
            if not (isinstance(data__kind, str) and data__kind == 'tested' or isinstance(data__kind, str) and data__kind == 'reading' or isinstance(data__kind, str) and data__kind == 'source' or isinstance(data__kind, str) and data__kind == 'review-by'):
                raise JsonSchemaValueException
        if "text" in data_keys:
            data_keys.remove("text")
            data__text = data["text"]
            if not isinstance(data__text, (str)):
                raise JsonSchemaValueException
            if isinstance(data__text, str):
                data__text_len = len(data__text)
                if data__text_len < 1:
                    raise JsonSchemaValueException
                if data__text_len > 2000:
                    raise JsonSchemaValueException
        if "date" in data_keys:
            data_keys.remove("date")
            data__date = data["date"]
            if not isinstance(data__date, (str)):
                raise JsonSchemaValueException
            if isinstance(data__date, str):
                data__date_len = len(data__date)
                if data__date_len > 10:
                    raise JsonSchemaValueException
                if not REGEX_PATTERNS['^[0-9]{4}-[0-9]{2}-[0-9]{2}$'].search(data__date):
                    raise JsonSchemaValueException
        if "quantity" in data_keys:
            data_keys.remove("quantity")
            data__quantity = data["quantity"]
            if not (isinstance(data__quantity, str) and data__quantity == 'pH' or isinstance(data__quantity, str) and data__quantity == 'aw' or isinstance(data__quantity, str) and data__quantity == 'Brix'):
                raise JsonSchemaValueException
        if "value" in data_keys:
            data_keys.remove("value")
            data__value = data["value"]
            validate____defs_number(data__value)
        if "forms" in data_keys:
            data_keys.remove("forms")
            data__forms = data["forms"]
            if not isinstance(data__forms, (list, tuple)):
                raise JsonSchemaValueException
            data__forms_is_list = isinstance(data__forms, (list, tuple))
            if data__forms_is_list:
                data__forms_len = len(data__forms)
                if data__forms_len < 1:
                    raise JsonSchemaValueException
                if data__forms_len > 40:
                    raise JsonSchemaValueException
                for data__forms_x, data__forms_item in enumerate(data__forms):
                    if not isinstance(data__forms_item, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__forms_item, str):
                        data__forms_item_len = len(data__forms_item)
                        if data__forms_item_len < 1:
                            raise JsonSchemaValueException
                        if data__forms_item_len > 400:
                            raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_keep(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['kind']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "kind" in data_keys:
            data_keys.remove("kind")
            data__kind = data["kind"]
            if not (isinstance(data__kind, str) and data__kind == 'stand' or isinstance(data__kind, str) and data__kind == 'sealed' or isinstance(data__kind, str) and data__kind == 'opened' or isinstance(data__kind, str) and data__kind == 'chilled' or isinstance(data__kind, str) and data__kind == 'frozen' or isinstance(data__kind, str) and data__kind == 'uncooked'):
                raise JsonSchemaValueException
        if "low" in data_keys:
            data_keys.remove("low")
            data__low = data["low"]
            validate____defs_number(data__low)
        if "high" in data_keys:
            data_keys.remove("high")
            data__high = data["high"]
            validate____defs_number(data__high)
        if "where" in data_keys:
            data_keys.remove("where")
            data__where = data["where"]
            if not isinstance(data__where, (list, tuple)):
                raise JsonSchemaValueException
            data__where_is_list = isinstance(data__where, (list, tuple))
            if data__where_is_list:
                data__where_len = len(data__where)
                if data__where_len < 1:
                    raise JsonSchemaValueException
                if data__where_len > 20:
                    raise JsonSchemaValueException
                for data__where_x, data__where_item in enumerate(data__where):
                    if not isinstance(data__where_item, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__where_item, str):
                        data__where_item_len = len(data__where_item)
                        if data__where_item_len < 1:
                            raise JsonSchemaValueException
                        if data__where_item_len > 200:
                            raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_process(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['method']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "method" in data_keys:
            data_keys.remove("method")
            data__method = data["method"]
            if not (isinstance(data__method, str) and data__method == 'boiling-water' or isinstance(data__method, str) and data__method == 'steam' or isinstance(data__method, str) and data__method == 'pressure' or isinstance(data__method, str) and data__method == 'freezer' or isinstance(data__method, str) and data__method == 'refrigerator'):
                raise JsonSchemaValueException
        if "start" in data_keys:
            data_keys.remove("start")
            data__start = data["start"]
            if not isinstance(data__start, (dict)):
                raise JsonSchemaValueException
            data__start_is_dict = isinstance(data__start, dict)
            if data__start_is_dict:
                data__start__missing_keys = set(['water_f', 'low', 'high']) - data__start.keys()
                if data__start__missing_keys:
                    raise JsonSchemaValueException
                data__start_keys = set(data__start.keys())
                if "water_f" in data__start_keys:
                    data__start_keys.remove("water_f")
                    data__start__waterf = data__start["water_f"]
                    validate____defs_number(data__start__waterf)
                if "low" in data__start_keys:
                    data__start_keys.remove("low")
                    data__start__low = data__start["low"]
                    validate____defs_number(data__start__low)
                if "high" in data__start_keys:
                    data__start_keys.remove("high")
                    data__start__high = data__start["high"]
                    validate____defs_number(data__start__high)
                if data__start_keys:
                    raise JsonSchemaValueException
        if "rows" in data_keys:
            data_keys.remove("rows")
            data__rows = data["rows"]
            if not isinstance(data__rows, (list, tuple)):
                raise JsonSchemaValueException
            data__rows_is_list = isinstance(data__rows, (list, tuple))
            if data__rows_is_list:
                data__rows_len = len(data__rows)
                if data__rows_len < 1:
                    raise JsonSchemaValueException
                if data__rows_len > 40:
                    raise JsonSchemaValueException
                for data__rows_x, data__rows_item in enumerate(data__rows):
                    if not isinstance(data__rows_item, (dict)):
                        raise JsonSchemaValueException
                    data__rows_item_is_dict = isinstance(data__rows_item, dict)
                    if data__rows_item_is_dict:
                        data__rows_item__missing_keys = set(['jars', 'bands']) - data__rows_item.keys()
                        if data__rows_item__missing_keys:
                            raise JsonSchemaValueException
                        data__rows_item_keys = set(data__rows_item.keys())
                        if "jars" in data__rows_item_keys:
                            data__rows_item_keys.remove("jars")
                            data__rows_item__jars = data__rows_item["jars"]
                            if not isinstance(data__rows_item__jars, (list, tuple)):
                                raise JsonSchemaValueException
                            data__rows_item__jars_is_list = isinstance(data__rows_item__jars, (list, tuple))
                            if data__rows_item__jars_is_list:
                                data__rows_item__jars_len = len(data__rows_item__jars)
                                if data__rows_item__jars_len < 1:
                                    raise JsonSchemaValueException
                                if data__rows_item__jars_len > 20:
                                    raise JsonSchemaValueException
                                for data__rows_item__jars_x, data__rows_item__jars_item in enumerate(data__rows_item__jars):
                                    validate____defs_jar(data__rows_item__jars_item)
                        if "fill" in data__rows_item_keys:
                            data__rows_item_keys.remove("fill")
                            data__rows_item__fill = data__rows_item["fill"]
                            if not (isinstance(data__rows_item__fill, str) and data__rows_item__fill == 'hot' or isinstance(data__rows_item__fill, str) and data__rows_item__fill == 'raw'):
                                raise JsonSchemaValueException
                        if "bands" in data__rows_item_keys:
                            data__rows_item_keys.remove("bands")
                            data__rows_item__bands = data__rows_item["bands"]
                            if not isinstance(data__rows_item__bands, (list, tuple)):
                                raise JsonSchemaValueException
                            data__rows_item__bands_is_list = isinstance(data__rows_item__bands, (list, tuple))
                            if data__rows_item__bands_is_list:
                                data__rows_item__bands_len = len(data__rows_item__bands)
                                if data__rows_item__bands_len < 1:
                                    raise JsonSchemaValueException
                                if data__rows_item__bands_len > 40:
                                    raise JsonSchemaValueException
                                for data__rows_item__bands_x, data__rows_item__bands_item in enumerate(data__rows_item__bands):
                                    validate____defs_band(data__rows_item__bands_item)
                        if data__rows_item_keys:
                            raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_band(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['minutes', 'unit']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "minutes" in data_keys:
            data_keys.remove("minutes")
            data__minutes = data["minutes"]
            validate____defs_number(data__minutes)
        if "up_to_ft" in data_keys:
            data_keys.remove("up_to_ft")
            data__uptoft = data["up_to_ft"]
            validate____defs_number(data__uptoft)
        if "unit" in data_keys:
            data_keys.remove("unit")
            data__unit = data["unit"]
            if not (isinstance(data__unit, str) and data__unit == 'ft' or isinstance(data__unit, str) and data__unit == 'm'):
                raise JsonSchemaValueException
        if "gauge" in data_keys:
            data_keys.remove("gauge")
            data__gauge = data["gauge"]
            if not (isinstance(data__gauge, str) and data__gauge == 'dial' or isinstance(data__gauge, str) and data__gauge == 'weighted'):
                raise JsonSchemaValueException
        if "psi" in data_keys:
            data_keys.remove("psi")
            data__psi = data["psi"]
            validate____defs_number(data__psi)
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_line(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['role', 'amount', 'item']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "flags" in data_keys:
            data_keys.remove("flags")
            data__flags = data["flags"]
            if not isinstance(data__flags, (list, tuple)):
                raise JsonSchemaValueException
            data__flags_is_list = isinstance(data__flags, (list, tuple))
            if data__flags_is_list:
                data__flags_len = len(data__flags)
                if data__flags_len < 1:
                    raise JsonSchemaValueException
                if data__flags_len > 2:
                    raise JsonSchemaValueException
                for data__flags_x, data__flags_item in enumerate(data__flags):
                    if not (isinstance(data__flags_item, str) and data__flags_item == 'optional' or isinstance(data__flags_item, str) and data__flags_item == 'infused' or isinstance(data__flags_item, str) and data__flags_item == 'discarded'):
                        raise JsonSchemaValueException
        if "role" in data_keys:
            data_keys.remove("role")
            data__role = data["role"]
            validate____defs_role(data__role)
        if "amount" in data_keys:
            data_keys.remove("amount")
            data__amount = data["amount"]
            validate____defs_amount(data__amount)
        if "item" in data_keys:
            data_keys.remove("item")
            data__item = data["item"]
            if not isinstance(data__item, (str)):
                raise JsonSchemaValueException
            if isinstance(data__item, str):
                data__item_len = len(data__item)
                if data__item_len < 1:
                    raise JsonSchemaValueException
                if data__item_len > 120:
                    raise JsonSchemaValueException
        if "forms" in data_keys:
            data_keys.remove("forms")
            data__forms = data["forms"]
            if not isinstance(data__forms, (list, tuple)):
                raise JsonSchemaValueException
            data__forms_is_list = isinstance(data__forms, (list, tuple))
            if data__forms_is_list:
                data__forms_len = len(data__forms)
                if data__forms_len < 1:
                    raise JsonSchemaValueException
                if data__forms_len > 30:
                    raise JsonSchemaValueException
                for data__forms_x, data__forms_item in enumerate(data__forms):
                    if not isinstance(data__forms_item, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__forms_item, str):
                        data__forms_item_len = len(data__forms_item)
                        if data__forms_item_len < 1:
                            raise JsonSchemaValueException
                        if data__forms_item_len > 200:
                            raise JsonSchemaValueException
        if "strength" in data_keys:
            data_keys.remove("strength")
            data__strength = data["strength"]
            validate____defs_number(data__strength)
        if "any_mix" in data_keys:
            data_keys.remove("any_mix")
            data__anymix = data["any_mix"]
            if not (isinstance(data__anymix, bool) and data__anymix is True):
                raise JsonSchemaValueException
        if "other" in data_keys:
            data_keys.remove("other")
            data__other = data["other"]
            if not isinstance(data__other, (list, tuple)):
                raise JsonSchemaValueException
            data__other_is_list = isinstance(data__other, (list, tuple))
            if data__other_is_list:
                data__other_len = len(data__other)
                if data__other_len < 1:
                    raise JsonSchemaValueException
                if data__other_len > 60:
                    raise JsonSchemaValueException
                for data__other_x, data__other_item in enumerate(data__other):
                    validate____defs_subline(data__other_item)
        if "made_of" in data_keys:
            data_keys.remove("made_of")
            data__madeof = data["made_of"]
            if not isinstance(data__madeof, (list, tuple)):
                raise JsonSchemaValueException
            data__madeof_is_list = isinstance(data__madeof, (list, tuple))
            if data__madeof_is_list:
                data__madeof_len = len(data__madeof)
                if data__madeof_len < 1:
                    raise JsonSchemaValueException
                if data__madeof_len > 60:
                    raise JsonSchemaValueException
                for data__madeof_x, data__madeof_item in enumerate(data__madeof):
                    validate____defs_subline(data__madeof_item)
        if "note" in data_keys:
            data_keys.remove("note")
            data__note = data["note"]
            if not isinstance(data__note, (list, tuple)):
                raise JsonSchemaValueException
            data__note_is_list = isinstance(data__note, (list, tuple))
            if data__note_is_list:
                data__note_len = len(data__note)
                if data__note_len < 1:
                    raise JsonSchemaValueException
                if data__note_len > 40:
                    raise JsonSchemaValueException
                for data__note_x, data__note_item in enumerate(data__note):
                    if not isinstance(data__note_item, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__note_item, str):
                        data__note_item_len = len(data__note_item)
                        if data__note_item_len < 1:
                            raise JsonSchemaValueException
                        if data__note_item_len > 2000:
                            raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_subline(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['role', 'item']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "role" in data_keys:
            data_keys.remove("role")
            data__role = data["role"]
            validate____defs_role(data__role)
        if "amount" in data_keys:
            data_keys.remove("amount")
            data__amount = data["amount"]
            validate____defs_amount(data__amount)
        if "item" in data_keys:
            data_keys.remove("item")
            data__item = data["item"]
            if not isinstance(data__item, (str)):
                raise JsonSchemaValueException
            if isinstance(data__item, str):
                data__item_len = len(data__item)
                if data__item_len < 1:
                    raise JsonSchemaValueException
                if data__item_len > 120:
                    raise JsonSchemaValueException
        if "forms" in data_keys:
            data_keys.remove("forms")
            data__forms = data["forms"]
            if not isinstance(data__forms, (list, tuple)):
                raise JsonSchemaValueException
            data__forms_is_list = isinstance(data__forms, (list, tuple))
            if data__forms_is_list:
                data__forms_len = len(data__forms)
                if data__forms_len < 1:
                    raise JsonSchemaValueException
                if data__forms_len > 30:
                    raise JsonSchemaValueException
                for data__forms_x, data__forms_item in enumerate(data__forms):
                    if not isinstance(data__forms_item, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__forms_item, str):
                        data__forms_item_len = len(data__forms_item)
                        if data__forms_item_len < 1:
                            raise JsonSchemaValueException
                        if data__forms_item_len > 200:
                            raise JsonSchemaValueException
        if "strength" in data_keys:
            data_keys.remove("strength")
            data__strength = data["strength"]
            validate____defs_number(data__strength)
        if "any_mix" in data_keys:
            data_keys.remove("any_mix")
            data__anymix = data["any_mix"]
            if not (isinstance(data__anymix, bool) and data__anymix is True):
                raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_amount(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set([]) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "some" in data_keys:
            data_keys.remove("some")
            data__some = data["some"]
            if not (isinstance(data__some, bool) and data__some is True):
                raise JsonSchemaValueException
        if "parts" in data_keys:
            data_keys.remove("parts")
            data__parts = data["parts"]
            if not isinstance(data__parts, (list, tuple)):
                raise JsonSchemaValueException
            data__parts_is_list = isinstance(data__parts, (list, tuple))
            if data__parts_is_list:
                data__parts_len = len(data__parts)
                if data__parts_len < 1:
                    raise JsonSchemaValueException
                if data__parts_len > 20:
                    raise JsonSchemaValueException
                for data__parts_x, data__parts_item in enumerate(data__parts):
                    validate____defs_measure(data__parts_item)
        if "also" in data_keys:
            data_keys.remove("also")
            data__also = data["also"]
            if not isinstance(data__also, (list, tuple)):
                raise JsonSchemaValueException
            data__also_is_list = isinstance(data__also, (list, tuple))
            if data__also_is_list:
                data__also_len = len(data__also)
                if data__also_len < 1:
                    raise JsonSchemaValueException
                if data__also_len > 10:
                    raise JsonSchemaValueException
                for data__also_x, data__also_item in enumerate(data__also):
                    if not isinstance(data__also_item, (list, tuple)):
                        raise JsonSchemaValueException
                    data__also_item_is_list = isinstance(data__also_item, (list, tuple))
                    if data__also_item_is_list:
                        data__also_item_len = len(data__also_item)
                        if data__also_item_len < 1:
                            raise JsonSchemaValueException
                        if data__also_item_len > 20:
                            raise JsonSchemaValueException
                        for data__also_item_x, data__also_item_item in enumerate(data__also_item):
                            validate____defs_measure(data__also_item_item)
        if "per" in data_keys:
            data_keys.remove("per")
            data__per = data["per"]
            if not isinstance(data__per, (dict)):
                raise JsonSchemaValueException
            data__per_is_dict = isinstance(data__per, dict)
            if data__per_is_dict:
                data__per__missing_keys = set(['number', 'unit']) - data__per.keys()
                if data__per__missing_keys:
                    raise JsonSchemaValueException
                data__per_keys = set(data__per.keys())
                if "number" in data__per_keys:
                    data__per_keys.remove("number")
                    data__per__number = data__per["number"]
                    validate____defs_number(data__per__number)
                if "unit" in data__per_keys:
                    data__per_keys.remove("unit")
                    data__per__unit = data__per["unit"]
                    if not isinstance(data__per__unit, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__per__unit, str):
                        data__per__unit_len = len(data__per__unit)
                        if data__per__unit_len < 1:
                            raise JsonSchemaValueException
                        if data__per__unit_len > 20:
                            raise JsonSchemaValueException
                if "of" in data__per_keys:
                    data__per_keys.remove("of")
                    data__per__of = data__per["of"]
                    if not isinstance(data__per__of, (str)):
                        raise JsonSchemaValueException
                    if isinstance(data__per__of, str):
                        data__per__of_len = len(data__per__of)
                        if data__per__of_len < 1:
                            raise JsonSchemaValueException
                        if data__per__of_len > 20:
                            raise JsonSchemaValueException
                if data__per_keys:
                    raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_measure(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['low', 'high', 'unit']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "low" in data_keys:
            data_keys.remove("low")
            data__low = data["low"]
            validate____defs_number(data__low)
        if "high" in data_keys:
            data_keys.remove("high")
            data__high = data["high"]
            validate____defs_number(data__high)
        if "unit" in data_keys:
            data_keys.remove("unit")
            data__unit = data["unit"]
            validate____defs_unit(data__unit)
        if "pack" in data_keys:
            data_keys.remove("pack")
            data__pack = data["pack"]
            if not isinstance(data__pack, (dict)):
                raise JsonSchemaValueException
            data__pack_is_dict = isinstance(data__pack, dict)
            if data__pack_is_dict:
                data__pack__missing_keys = set(['number', 'unit']) - data__pack.keys()
                if data__pack__missing_keys:
                    raise JsonSchemaValueException
                data__pack_keys = set(data__pack.keys())
                if "number" in data__pack_keys:
                    data__pack_keys.remove("number")
                    data__pack__number = data__pack["number"]
                    validate____defs_number(data__pack__number)
                if "unit" in data__pack_keys:
                    data__pack_keys.remove("unit")
                    data__pack__unit = data__pack["unit"]
                    validate____defs_unit(data__pack__unit)
                if data__pack_keys:
                    raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_unit(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (str)):
        raise JsonSchemaValueException
    if isinstance(data, str):
        data_len = len(data)
        if data_len < 1:
            raise JsonSchemaValueException
        if data_len > 20:
            raise JsonSchemaValueException
        if not REGEX_PATTERNS['^[A-Za-z]+( [a-z]+)?$'].search(data):
            raise JsonSchemaValueException
    return data

def validate____defs_role(data, custom_formats={}, name_prefix=None):
    if not (isinstance(data, str) and data == 'fruit' or isinstance(data, str) and data == 'juice' or isinstance(data, str) and data == 'peel' or isinstance(data, str) and data == 'vegetable' or isinstance(data, str) and data == 'dried-fruit' or isinstance(data, str) and data == 'nut' or isinstance(data, str) and data == 'sweetener' or isinstance(data, str) and data == 'acid' or isinstance(data, str) and data == 'pectin' or isinstance(data, str) and data == 'gelling' or isinstance(data, str) and data == 'firming' or isinstance(data, str) and data == 'thickener' or isinstance(data, str) and data == 'liquid' or isinstance(data, str) and data == 'spirit' or isinstance(data, str) and data == 'fat' or isinstance(data, str) and data == 'egg' or isinstance(data, str) and data == 'dairy' or isinstance(data, str) and data == 'meat' or isinstance(data, str) and data == 'salt' or isinstance(data, str) and data == 'spice' or isinstance(data, str) and data == 'herb' or isinstance(data, str) and data == 'condiment' or isinstance(data, str) and data == 'flavouring' or isinstance(data, str) and data == 'colour'):
        raise JsonSchemaValueException
    return data

def validate____defs_jar(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['name', 'ml']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "name" in data_keys:
            data_keys.remove("name")
            data__name = data["name"]
            if not isinstance(data__name, (str)):
                raise JsonSchemaValueException
            if isinstance(data__name, str):
                data__name_len = len(data__name)
                if data__name_len < 1:
                    raise JsonSchemaValueException
                if data__name_len > 20:
                    raise JsonSchemaValueException
        if "ml" in data_keys:
            data_keys.remove("ml")
            data__ml = data["ml"]
            validate____defs_number(data__ml)
        if data_keys:
            raise JsonSchemaValueException
    return data

def validate____defs_number(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (str)):
        raise JsonSchemaValueException
    if isinstance(data, str):
        data_len = len(data)
        if data_len > 80:
            raise JsonSchemaValueException
        if not REGEX_PATTERNS['^[0-9]{1,40}(/[0-9]{1,39})?$'].search(data):
            raise JsonSchemaValueException
    return data

def validate____defs_finish(data, custom_formats={}, name_prefix=None):
    if not isinstance(data, (dict)):
        raise JsonSchemaValueException
    data_is_dict = isinstance(data, dict)
    if data_is_dict:
        data__missing_keys = set(['kind']) - data.keys()
        if data__missing_keys:
            raise JsonSchemaValueException
        data_keys = set(data.keys())
        if "kind" in data_keys:
            data_keys.remove("kind")
            data__kind = data["kind"]
            if not (isinstance(data__kind, str) and data__kind == 'rolling' or isinstance(data__kind, str) and data__kind == 'gel' or isinstance(data__kind, str) and data__kind == 'brix' or isinstance(data__kind, str) and data__kind == 'temperature' or isinstance(data__kind, str) and data__kind == 'simmer' or isinstance(data__kind, str) and data__kind == 'boil' or isinstance(data__kind, str) and data__kind == 'reduce' or isinstance(data__kind, str) and data__kind == 'thick' or isinstance(data__kind, str) and data__kind == 'none' or isinstance(data__kind, str) and data__kind == 'other'):
                raise JsonSchemaValueException
        if "low" in data_keys:
            data_keys.remove("low")
            data__low = data["low"]
            validate____defs_number(data__low)
        if "high" in data_keys:
            data_keys.remove("high")
            data__high = data["high"]
            validate____defs_number(data__high)
        if "text" in data_keys:
            data_keys.remove("text")
            data__text = data["text"]
            if not isinstance(data__text, (str)):
                raise JsonSchemaValueException
            if isinstance(data__text, str):
                data__text_len = len(data__text)
                if data__text_len < 1:
                    raise JsonSchemaValueException
                if data__text_len > 2000:
                    raise JsonSchemaValueException
        if data_keys:
            raise JsonSchemaValueException
    return data
