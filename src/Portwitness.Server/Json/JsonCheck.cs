using Google.Protobuf.Reflection;
using Microsoft.AspNetCore.Grpc.JsonTranscoding;
using Microsoft.AspNetCore.Http;
using Portwitness.Service.Validation;

namespace Portwitness.Server.Json;

/// <summary>Stands before the methods of the contract that are called as JSON. What is wrong is told in words, with its place.</summary>
internal sealed class JsonCheck(ServiceLimits limits)
{
    private readonly JsonBody _body = new(limits);

    /// <summary>Lets good requests through.</summary>
    public async Task InvokeAsync(HttpContext context, RequestDelegate next)
    {
        if (context.GetEndpoint()?.Metadata.GetMetadata<GrpcJsonTranscodingMetadata>() is not { } method)
        {
            await next(context);
            return;
        }

        MessageDescriptor message = method.MethodDescriptor.InputType;
        bool takesBody = method.HttpRule.Body.Length > 0;
        if (AddressShape.FindProblem(context.Request, message, takesBody) is { } problem)
        {
            await JsonRefusal.WriteAsync(context, StatusCodes.Status400BadRequest, problem);
        }
        else if (!takesBody || await _body.ReadAsync(context, message))
        {
            await next(context);
        }
    }
}
