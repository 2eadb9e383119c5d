using System.Globalization;

namespace Portwitness.Analysis.Rules.Capabilities;

/// <summary>Writes EPR lists as rules' examples carry them.</summary>
internal static class EprExamples
{
    /// <summary>An unchunked EPR_Source_Capabilities of these objects, in hex digits.</summary>
    public static string List(params ReadOnlySpan<uint> objects)
    {
        // Extended, Source, R3.x, message type 17; then the size of the block (R3.2v1.1, Tables 6.1 and 6.3).
        string text = "B181" + Bytes((uint)(objects.Length * sizeof(uint)), 2);
        foreach (uint word in objects)
        {
            text += Bytes(word, sizeof(uint));
        }

        return text;
    }

    private static string Bytes(uint value, int count)
    {
        string text = "";
        for (int index = 0; index < count; index++)
        {
            text += ((value >> (8 * index)) & 0xFF).ToString("X2", CultureInfo.InvariantCulture);
        }

        return text;
    }
}
