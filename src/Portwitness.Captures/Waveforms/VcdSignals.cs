using System.Text;

namespace Portwitness.Captures.Waveforms;

/// <summary>The declarations of a VCD file (IEEE 1364, 18.2.3): finds the one signal that is the CC line.</summary>
/// <param name="wanted">The name that was asked for; null for the only one that can be meant.</param>
internal sealed class VcdSignals(string? wanted)
{
    private const int MaxScopes = 64;
    private const int MaxListed = 20;
    private const int MaxChoices = 16;

    private readonly List<string> _scopes = [];
    private readonly List<string> _listed = [];
    private readonly List<(string Name, byte[] Code)> _choices = [];
    private readonly List<(string Name, byte[] Code)> _choicesOfCc = [];
    private int _deeper;
    private Candidates _any;
    private Candidates _named;

    /// <summary>Signals that could be read, by name; of many the first.</summary>
    public string Known => _listed.Count == 0
        ? "none"
        : string.Join(", ", _listed.Select(FaultText.Printable)) + (_any.Count > _listed.Count ? " ..." : "");

    /// <summary>How many signals fit; aliases of one count once.</summary>
    public int Fitting => Chosen.Codes;

    /// <summary>The identifier of the one that fits.</summary>
    public byte[] Code => Chosen.Code ?? [];

    /// <summary>Whether it is a real number.</summary>
    public bool IsReal => Chosen.IsReal;

    /// <summary>Those that fit, by name and identifier, when nobody named one; of many the first.</summary>
    public IReadOnlyList<(string Name, byte[] Code)> Choices => _named.Codes > 0 ? _choicesOfCc : _choices;

    /// <summary>Whether these are CC lines by their names.</summary>
    public bool AreCcLines => _named.Codes > 0;

    private Candidates Chosen => wanted is not null || _named.Codes > 0 ? _named : _any;

    /// <summary>$scope.</summary>
    public void Enter(string name)
    {
        if (_scopes.Count == MaxScopes)
        {
            _deeper++;
            return;
        }

        _scopes.Add(name);
    }

    /// <summary>$upscope.</summary>
    public void Leave()
    {
        if (_deeper > 0)
        {
            _deeper--;
        }
        else if (_scopes.Count > 0)
        {
            _scopes.RemoveAt(_scopes.Count - 1);
        }
    }

    /// <summary>$var: type, width, identifier, name and perhaps a bit of it.</summary>
    public void Declare(IReadOnlyList<byte[]> words)
    {
        bool isReal = words[0].AsSpan().SequenceEqual("real"u8) || words[0].AsSpan().SequenceEqual("realtime"u8);
        if (!isReal && !words[1].AsSpan().SequenceEqual("1"u8))
        {
            return;
        }

        string name = Unescaped(words[3]);
        string bit = words.Count > 4 ? Encoding.UTF8.GetString(words[4]) : "";
        string full = string.Join('.', _scopes.Append(name));
        if (_listed.Count < MaxListed)
        {
            _listed.Add(full);
        }

        _any.Add(words[2], isReal);
        Note(_choices, full, words[2]);
        bool fits = wanted is null
            ? SoundsLikeCc(name)
            : wanted == name || wanted == full || wanted == name + bit || wanted == full + bit
                || full.EndsWith('.' + wanted, StringComparison.Ordinal);
        if (fits)
        {
            _named.Add(words[2], isReal);
            Note(_choicesOfCc, full, words[2]);
        }
    }

    private static void Note(List<(string Name, byte[] Code)> choices, string name, byte[] code)
    {
        if (choices.Count < MaxChoices && !choices.Exists(one => one.Code.AsSpan().SequenceEqual(code)))
        {
            choices.Add((name, code));
        }
    }

    // An identifier of other characters than letters begins with a backslash, which is not part of the name.
    public static string Unescaped(ReadOnlySpan<byte> name) =>
        Encoding.UTF8.GetString(name.StartsWith("\\"u8) ? name[1..] : name);

    /// <summary>"CC", "cc1", "usb_cc2", but not "success".</summary>
    public static bool SoundsLikeCc(string name)
    {
        for (int at = 0; (at = name.IndexOf("cc", at, StringComparison.OrdinalIgnoreCase)) >= 0; at++)
        {
            bool startsWord = at == 0 || !char.IsAsciiLetter(name[at - 1]);
            bool endsWord = at + 2 == name.Length || !char.IsAsciiLetter(name[at + 2]);
            if (startsWord && endsWord)
            {
                return true;
            }
        }

        return false;
    }

    private record struct Candidates(long Count, int Codes, byte[]? Code, bool IsReal)
    {
        public void Add(byte[] code, bool isReal)
        {
            Count++;
            if (Code is null)
            {
                (Code, IsReal, Codes) = (code, isReal, 1);
            }
            else if (!code.AsSpan().SequenceEqual(Code))
            {
                Codes = 2;
            }
        }
    }
}
