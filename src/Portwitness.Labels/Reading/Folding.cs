namespace Portwitness.Labels;

/// <summary>
/// Printed characters that mean the same as a plain one: full-width and small forms (the rest of Unicode's compatibility folding is
/// <see cref="Compatibility"/>), and beyond NFKC the signs that labels use for DC, AC, ranges and lists.
/// </summary>
internal static class Folding
{
    /// <summary>No character below is changed.</summary>
    public const char FirstFolded = '\u0080';

    /// <summary>The sign for direct current, IEC 60417-5031 (Unicode U+2393).</summary>
    public const char Direct = '\u2393';

    /// <summary>A dash that can not be the hyphen inside a name.</summary>
    public const char Dash = '\u2013';

    /// <summary>Any mark before an item of a list.</summary>
    public const char Bullet = '\u2022';

    public static char Fold(char c) => c switch
    {
        < FirstFolded => c,
        >= '\uFF01' and <= '\uFF5E' => (char)(c - 0xFEE0),
        '\u0085' or '\u00A0' or '\u1680' or (>= '\u2000' and <= '\u200A') or '\u2028' or '\u2029' or '\u202F' or '\u205F'
            or '\u3000' => ' ',
        // Invisible: zero width spaces and joiners, direction marks, byte order mark, variation selectors.
        (>= '\u200B' and <= '\u200F') or '\u2060' or '\uFEFF' or '\uFE0E' or '\uFE0F' => ' ',
        // Marks of ownership rate nothing: "USB-C\u2122:" is not a port CTM.
        '\u00AE' or '\u2120' or '\u2122' => ' ',
        '\u23AF' or '\u2550' or '\u268C' or '\u2A75' => Direct,
        '\u207C' or '\u208C' or '\uFE66' => '=',
        '\u207A' or '\u208A' => '+',
        '\u207B' or '\u208B' => Dash,
        '\u02DC' or '\u223C' or '\u223F' or '\u23E6' or '\u301C' => '~',
        '\u2010' or '\u2011' or '\uFE63' => '-',
        (>= '\u2012' and <= '\u2015') or '\u2212' or '\u2500' or '\uFE31' or '\uFE32' or '\uFE58' => Dash,
        '\u00D7' or '\u2715' or '\u2A2F' => '*',
        '\u00F7' => Dash,
        '\u00B7' or '\u2023' or '\u2219' or '\u22C5' or '\u25AA' or '\u25A0' or '\u25CF' or '\u25E6' or '\u30FB' or '\uFF65' => Bullet,
        '\u2236' or '\uFE13' or '\uFE55' => ':',
        '\uFE14' or '\uFE54' => ';',
        '\u2018' or '\u2019' or '\u02BC' => '\'',
        '\u2264' or '\u2266' or '\u2A7D' => '<',
        '\u2265' or '\u2267' or '\u2A7E' => '>',
        '\u3001' or '\uFE10' or '\uFE11' or '\uFE50' or '\uFE51' or '\uFF64' => ',',
        '\u3002' or '\uFE12' or '\uFE52' or '\uFF61' or '\u2024' => '.',
        '\u2044' or '\u2215' => '/',
        '\uFE62' => '+',
        '\u00A6' or '\u2502' or '\u2503' => '|',
        '\uFE59' or '\uFE35' or '\uFE39' or '\uFE3B' or '\uFE5D' or '\u3010' or '\u3014' or '\u207D' or '\u208D' => '(',
        '\uFE5A' or '\uFE36' or '\uFE3A' or '\uFE3C' or '\uFE5E' or '\u3011' or '\u3015' or '\u207E' or '\u208E' => ')',
        '\uFE47' => '[',
        '\uFE48' => ']',
        '\uFE15' or '\uFE57' => '!',
        '\uFE16' or '\uFE56' => '?',
        '\uFE33' or '\uFE34' or (>= '\uFE4D' and <= '\uFE4F') => '_',
        '\uFE5F' => '#',
        '\uFE60' => '&',
        '\uFE61' => '*',
        '\uFE64' => '<',
        '\uFE65' => '>',
        '\uFE68' => '\\',
        '\uFE69' => '$',
        '\uFE6A' => '%',
        '\uFE6B' => '@',
        _ => c,
    };

    /// <summary>The letter that a plain letter and the accent behind it are (Unicode canonical composition); null for others.</summary>
    public static char? Compose(char letter, char accent)
    {
        string? pairs = accent switch
        {
            '\u0300' => "AÀEÈIÌOÒUÙaàeèiìoòuù",
            '\u0301' => "AÁEÉIÍOÓUÚYÝaáeéiíoóuúyý",
            '\u0302' => "AÂEÊIÎOÔUÛaâeêiîoôuû",
            '\u0303' => "AÃNÑOÕaãnñoõ",
            '\u0308' => "AÄEËIÏOÖUÜaäeëiïoöuü",
            '\u0327' => "CÇcç",
            _ => null,
        };
        for (int i = 0; i < pairs?.Length; i += 2)
        {
            if (pairs[i] == letter)
            {
                return pairs[i + 1];
            }
        }

        return null;
    }

    /// <summary>The characters that this one stands for, when they are several.</summary>
    public static string? Expand(char c) => c switch
    {
        '\u2026' or '\uFE19' => "...",
        '\u2025' or '\uFE30' => "..",
        _ => Compatibility.Of(c),
    };
}
