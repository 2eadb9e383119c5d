using Portwitness.Analysis.Conversation;
using Portwitness.Service.Translation;
using Portwitness.Service.Validation;
using Wire = Portwitness.Contracts.V1;

namespace Portwitness.Service.Calls;

/// <summary>Reads how a capture is to be decoded.</summary>
internal static class DecodeSetup
{
    /// <summary>The options; what is wrong with them goes to <paramref name="invalid"/>.</summary>
    public static CaptureOptions Read(Wire.DecodeOptions options, InvalidRequest invalid, ServiceLimits limits, Action<MessageSummary> onMessage)
    {
        invalid.CheckName("options.file", options.File, limits);
        return new CaptureOptions
        {
            File = options.File,
            Edition = invalid.ReadEdition("options.edition", options.Edition),
            Rules = invalid.ReadRules("options.rules", options.Rules),
            Reading = invalid.ReadReading("options.read", options.Read, limits),
            ExplainIndex = options.Explain > 0 ? options.Explain : null,
            OnMessage = options.Messages ? onMessage : null,
        };
    }
}
