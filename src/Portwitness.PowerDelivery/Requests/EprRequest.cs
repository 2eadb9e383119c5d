using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.PowerDelivery.Requests;

/// <summary>
/// An EPR_Request, two objects (R3.2v1.1, 6.4.9): the request, and a copy of the object that it selects, so that it can
/// be read without the list.
/// </summary>
/// <remarks>Whether the copy is that of the source's last list is for the receiver to check.</remarks>
/// <param name="Request">The first object.</param>
/// <param name="Copy">The second object.</param>
public readonly record struct EprRequest(RequestObject Request, SourcePowerObject Copy)
{
    /// <summary>What is asked for, read against the copy.</summary>
    public RequestTerms Terms => RequestTerms.Read(Request, Copy);

    /// <summary>Reads both objects; false for other messages and when one is missing.</summary>
    public static bool TryRead(in MessageView message, out EprRequest request)
    {
        bool isOne = message.Header.Kind == MessageKind.EPRRequest && message.CompleteObjects >= 2;
        request = isOne ? new(new(message.ObjectAt(0)), new(message.ObjectAt(1))) : default;
        return isOne;
    }
}
