namespace Portwitness.Captures.Quoted;

/// <summary>The words for <see cref="QuotedForm"/>.</summary>
public static class QuotedForms
{
    /// <summary>What <see cref="TryParse"/> takes.</summary>
    public const string Expected = "no form of a quotation; expected words (0x0801912C) or bytes (2C 91 01 08).";

    /// <summary>Reads "words" or "bytes". False when the text is none.</summary>
    public static bool TryParse(string text, out QuotedForm form)
    {
        form = text == "bytes" ? QuotedForm.Bytes : QuotedForm.Words;
        return text is "words" or "bytes";
    }
}
