using Portwitness.Captures;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Limits;
using Portwitness.Text;

namespace Portwitness.Synthesis;

/// <summary>The steps that send any message: by its name with its words, or as bytes.</summary>
internal static class FreeMessage
{
    /// <summary>"source Source_Info 0x80414141": a message by name, its objects as words, its data block as hex digits.</summary>
    public static Action<Dialogue> Read(ScriptWords words)
    {
        Sender sender = ExpectPort(words);
        string name = words.ExpectWord("a message's name");
        MessageKind kind = Find(name) ?? throw ScriptFault.Value(
            $"\"{name}\" is no message that can be sent so; expected the standard's name, for example Get_Revision, in \"{words.Text}\"");
        if (kind.Class == MessageClass.Extended)
        {
            byte[] block = ExpectBytes(words, 1, MessageLimits.MaxExtendedMsgLen);
            return talk => talk.SendBlock(sender, kind, block);
        }

        List<uint> objects = [];
        while (objects.Count < MessageLimits.MaxSprObjects && words.Try(AmountWords.Word) is { } word)
        {
            objects.Add(word);
        }

        if ((kind.Class == MessageClass.Data) != (objects.Count > 0))
        {
            throw ScriptFault.Value(kind.Class == MessageClass.Data
                ? $"{name} has 1 to 7 objects, each written as 0x..., in \"{words.Text}\""
                : $"{name} has no objects; leave them out of \"{words.Text}\"");
        }

        uint[] all = [.. objects];
        return talk => talk.Say(sender, kind, all);
    }

    /// <summary>"sink 8210451505 43", "cable SOP' 4F51...": bytes from the header on, without CRC.</summary>
    public static Action<Dialogue> ReadRaw(ScriptWords words)
    {
        Sender sender = words.Take("cable") ? Sender.CablePlug : ExpectPort(words);
        SopKind sop = sender == Sender.CablePlug ? SopKind.SopPrime : SopKind.Sop;
        if (words.Next is { } next && SopKinds.TryParse(next, out SopKind named))
        {
            words.ExpectWord("SOP");
            sop = named;
        }

        byte[] message = ExpectBytes(words, CaptureLimits.MinimumMessageBytes, CaptureLimits.MaximumMessageBytes);
        return talk => talk.SayRaw(sop, sender, message);
    }

    private static Sender ExpectPort(ScriptWords words) => words.Take("source") ? Sender.Source
        : words.Take("sink") ? Sender.Sink
        : throw ScriptFault.Value($"who sends was expected in \"{words.Text}\": source or sink");

    private static byte[] ExpectBytes(ScriptWords words, int least, int most)
    {
        string digits = words.ExpectWord("hex digits");
        while (words.Next is { } next && next.All(char.IsAsciiHexDigit))
        {
            digits += words.ExpectWord("hex digits");
        }

        return digits.Length % 2 == 0 && digits.All(char.IsAsciiHexDigit) && digits.Length >= 2 * least && digits.Length <= 2 * most
            ? Convert.FromHexString(digits)
            : throw ScriptFault.Value($"{least} to {most} bytes as hex digits were expected in \"{words.Text}\"");
    }

    // GoodCRC is sent by itself.
    private static MessageKind? Find(string name)
    {
        foreach (MessageClass messageClass in Enum.GetValues<MessageClass>())
        {
            for (int code = 0; code < 32; code++)
            {
                MessageKind kind = new(messageClass, code);
                if (!kind.IsReserved && kind != MessageKind.GoodCRC && kind.Name == name)
                {
                    return kind;
                }
            }
        }

        return null;
    }
}
